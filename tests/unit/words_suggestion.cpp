#include "catch.hpp"

#include "wingnose/words/text.hpp"

using namespace wingnose;

TEST_CASE("A suggestion is made for a slip of the finger and for a missing unit, not for another word") {
  CHECK(edit_distance("spacign", "spacing") == 1);
  CHECK(edit_distance("kitten", "sitting") == 3);
  CHECK(nearest("presett", {"preset", "file"}) == "preset");
  CHECK(nearest("flangeway", {"flangeway_mm", "gauge_mm"}) == "flangeway_mm");
  CHECK(nearest("colour", {"preset", "file"}).empty());
}
