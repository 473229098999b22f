#include "wingnose/study/steel_damage.hpp"

namespace wingnose::study {

assess::ContactTrail contact_trail(const Case& c, const Result& result) {
  return assess::contact_trail(result.history, *result.geometry.path, c.wheel, landing_station(result.geometry),
                               c.steel, c.damage);
}

assess::Damage damage(const Case& c, const Result& result) {
  return assess::damage(contact_trail(c, result), c.grade, c.damage);
}

} // namespace wingnose::study
