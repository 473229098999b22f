// Sweeps: which cases they consist of, and the file their answers go into. Rows are made up where what is read back is
// to be told from what was written.
#include "catch.hpp"
#include "folder.hpp"
#include "parsed.hpp"
#include "said.hpp"

#include "wingnose/io/stream_file.hpp"
#include "wingnose/io/tree_file.hpp"
#include "wingnose/study/sweep.hpp"
#include "wingnose/words/error.hpp"

#include <atomic>
#include <cmath>
#include <limits>
#include <sstream>

using namespace wingnose;
using said::has;
using said::refusal;
using Chunk = quantity::Sink::Chunk;

namespace {

using State = study::Outcome::State;

std::string content(const fs::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

study::Sweep parse(const std::string& text, const fs::path& folder = profiles) {
  return parsed::from_text(text, "sweep.toml", folder, study::read_sweep);
}

// Four offsets by three speeds; the offset moves the wheel path and is the dearer key.
study::Sweep grid(const std::string& speeds = "[80, 100, 120]") {
  return parse("case = \"demo.toml\"\n[[vary]]\nkey = \"passage.speed_km_h\"\nvalues = " + speeds +
               "\n[[vary]]\nkey = \"wheel.lateral_offset_mm\"\nvalues = [-2, 0, 1, 2]\n");
}
// Three speeds over a short stretch of a coarse track, to be computed, and over one that ends before it begins.
study::Sweep quick(const Folder& folder, const std::string& more = "") {
  folder.write("quick.toml", "base = \"" + (profiles / "demo.toml").string() +
                                 "\"\n[passage]\nfrom_m = -1\nto_m = 1.5\n[track]\nbays = 20\nelements_per_bay = 4\n");
  return parse("case = \"quick.toml\"\n" + more +
                   "[[vary]]\nkey = \"passage.speed_km_h\"\nvalues = [90, 108, 126]\n[[vary]]\nkey = "
                   "\"passage.to_m\"\nvalues = [1.5, -1.5]\n",
               folder.path);
}

double made_up_p2(std::size_t i) { return 100.0 + static_cast<double>(i); } // kN

quantity::Tree made_up_rows(const quantity::Stream& stream, const Chunk& chunk) {
  const std::size_t count = chunk.end - chunk.begin;
  quantity::Tree rows("sweep");
  for (const quantity::StreamColumn& column : stream.columns) {
    if (column.known) {
      continue;
    }
    quantity::Array a = column.array;
    a.shape = {count};
    for (std::size_t i = chunk.begin; i < chunk.end; ++i) {
      const bool failed = i == 5;
      if (a.is_text) {
        a.texts.push_back(failed && a.name == "failure" ? "the wheel leaves the rail" : "");
      } else if (a.name == "status") {
        a.numbers.push_back(static_cast<double>(failed ? State::could_not_compute : State::done));
      } else if (a.name == "gravity") {
        a.numbers.push_back(0.0);
      } else {
        a.numbers.push_back(a.name == "p2_kN" && !failed ? made_up_p2(i) : std::numeric_limits<double>::quiet_NaN());
      }
    }
    rows.add(column.group, std::move(a));
  }
  return rows;
}

State status_of(const quantity::Tree& stored, std::size_t i) {
  return static_cast<State>(static_cast<int>(stored.numbers("status")[i]));
}

} // namespace

TEST_CASE("A grid holds all combinations, the key that moves the wheel path slowest") {
  const study::Sweep sweep = grid();
  REQUIRE(sweep.count() == 12);
  CHECK(sweep.columns()[0].key == "wheel.lateral_offset_mm");
  for (std::size_t i = 0; i < sweep.count(); ++i) {
    CHECK(sweep.value(i, 0) == sweep.columns()[0].values[i / 3]);
    CHECK(sweep.value(i, 1) == sweep.columns()[1].values[i % 3]);
    CHECK(sweep.make(i).passage.speed * 3.6 == Approx(std::get<double>(sweep.value(i, 1))));
  }
  CHECK(grid().stream().identity == sweep.stream().identity);
  CHECK(grid("[80, 100, 121]").stream().identity != sweep.stream().identity);
}

TEST_CASE("Points come from a CSV file, one case per line, and a wrong value is told with its line") {
  const Folder folder;
  const auto sweep = [&folder](const std::string& csv) {
    folder.write("points.csv", csv);
    return parse("case = \"" + (profiles / "demo.toml").string() + "\"\n[points]\ncsv = \"points.csv\"\n", folder.path);
  };
  const study::Sweep good = sweep("passage.speed_km_h, wheel.lateral_offset_mm\n90, 1.5\n110, -2\n");
  REQUIRE(good.count() == 2);
  CHECK_FALSE(good.grid());
  CHECK(std::get<double>(good.value(1, 0)) == 110.0);
  CHECK(std::get<double>(good.value(0, 1)) == 1.5);
  CHECK(has(refusal<InputError>([&] { (void)sweep("passage.speed_km_h\n90\n-5\n"); }), "points.csv:3"));
}

TEST_CASE("Mistakes in a sweep file are told with place and what to do") {
  const std::string speeds = "[[vary]]\nkey = \"passage.speed_km_h\"\n";
  const auto refused = [](const std::string& text, const std::string& message) {
    const std::string told = refusal<InputError>([&] { (void)parse(text); });
    INFO(text << " -> " << told);
    CHECK(has(told, message));
    CHECK(has(told, "sweep.toml"));
  };
  refused(speeds + "values = [80]\n", "case is missing");
  refused("case = \"no_such.toml\"\n" + speeds + "values = [80]\n", "no_such.toml");
  refused("case = \"demo.toml\"\n", "either [[vary]] tables");
  refused("case = \"demo.toml\"\nvry = 1\n", "Did you mean \"vary\"?");
  refused("case = \"demo.toml\"\n" + speeds, "values");
  refused("case = \"demo.toml\"\n" + speeds + "values = []\n", "at least one value");
  refused("case = \"demo.toml\"\n" + speeds + "values = [80]\ncount = 3\n", "one or the other");
  refused("case = \"demo.toml\"\n" + speeds + "from = 80\nto = 100\ncount = 2.5\n", "2 to 10 million");
  refused("case = \"demo.toml\"\n" + speeds + "values = [8000]\n", "1 to 500 km/h");
  refused("case = \"demo.toml\"\n" + speeds + "values = [80]\n" + speeds + "values = [90]\n", "varies twice");
  refused("case = \"demo.toml\"\nhistory_every = -1\n" + speeds + "values = [80]\n", "0 (no histories)");
  refused("case = \"demo.toml\"\nsteel = \"R260\"\n" + speeds + "values = [80]\n", "true or false");
}

TEST_CASE("A sweep stopped between chunks goes on to the same bytes; a failed case keeps its reason") {
  const Folder folder;
  const study::Sweep sweep = grid();
  const quantity::Stream stream = sweep.stream();
  const fs::path whole = folder.path / "whole.h5", halves = folder.path / "halves.h5";
  {
    io::StreamFile file(whole, stream, 5);
    CHECK(file.cases_complete() == 0);
    for (const auto& chunk : file.missing()) {
      file.write(chunk, made_up_rows(stream, chunk));
    }
    CHECK(file.cases_complete() == 12);
  }
  {
    io::StreamFile file(halves, stream, 5);
    const Chunk second = file.missing().at(1); // the order does not matter
    file.write(second, made_up_rows(stream, second));
  }
  const quantity::Tree half = io::read_tree(halves);
  const auto complete = half.numbers("chunk_complete");
  CHECK(std::vector<double>(complete.begin(), complete.end()) == std::vector<double>{0, 1, 0});
  CHECK(status_of(half, 0) == State::not_run);
  CHECK(status_of(half, 6) == State::done);
  CHECK(std::isnan(half.numbers("measures/p2_kN")[0]));
  CHECK(half.numbers("measures/p2_kN")[6] == made_up_p2(6));
  CHECK(study::summary(half).number("summary/stored") == 5);
  {
    io::StreamFile file(halves, stream, 7); // the size of chunks stays that of the file
    CHECK(file.cases_complete() == 5);
    for (const auto& chunk : file.missing()) {
      file.write(chunk, made_up_rows(stream, chunk));
    }
  }
  const bool same = content(halves) == content(whole); // not shown: it is binary
  CHECK(same);
  const quantity::Tree stored = io::read_tree(halves);
  REQUIRE(stored.numbers("status").size() == 12);
  for (std::size_t i = 0; i < 12; ++i) {
    CHECK(stored.texts("failure")[i] == (i == 5 ? "the wheel leaves the rail" : ""));
    CHECK(status_of(stored, i) == (i == 5 ? State::could_not_compute : State::done));
  }
  CHECK(std::isnan(stored.numbers("measures/p2_kN")[5]));
  CHECK(stored.find("measures/p2_kN")->unit == "kN");
  const auto columns = stored.texts("case/columns");
  CHECK(std::vector<std::string>(columns.begin(), columns.end()) ==
        std::vector<std::string>{"wheel.lateral_offset_mm", "passage.speed_km_h"});
  const auto speeds = stored.numbers("axes/passage.speed_km_h");
  CHECK(std::vector<double>(speeds.begin(), speeds.end()) == std::vector<double>{80, 100, 120});
  CHECK(stored.find("axes/passage.speed_km_h")->unit == "km/h");
  CHECK(stored.numbers("input/passage.speed_km_h")[4] == 100.0);
  CHECK(stored.text("case/text") == sweep.document()->source_text);
  const quantity::Tree summary = study::summary(stored);
  CHECK(summary.number("summary/cases") == 12);
  CHECK(summary.number("summary/stored") == 12);
  CHECK(summary.number("summary/failed") == 1);
  CHECK(said::says(quantity::findings_of(summary), "the wheel leaves the rail"));
}

TEST_CASE("A file that holds another sweep, or none, is refused") {
  const Folder folder;
  const fs::path file = folder.path / "s.h5";
  const study::Sweep sweep = grid(), other = grid("[80, 100]");
  { const io::StreamFile made(file, sweep.stream(), 4); }
  CHECK_THROWS_AS(io::StreamFile(file, other.stream(), 4), InputError);
  CHECK_NOTHROW(io::StreamFile(file, sweep.stream(), 4));
  folder.write("text.h5", "no HDF5");
  CHECK_THROWS_AS(io::StreamFile(folder.path / "text.h5", sweep.stream(), 4), InputError);
  CHECK_THROWS_AS(io::read_tree(folder.path / "missing.h5"), InputError);
  CHECK_THROWS_AS(io::StreamFile(folder.path / "t.h5", sweep.stream(), 0), InputError);
}

TEST_CASE("Cases of a sweep are answered as each alone is, whatever the chunks, and one that cannot be says why") {
  const Folder folder;
  const study::Sweep sweep = quick(folder, "steel = true\nhistory_every = 50\n");
  REQUIRE(sweep.count() == 6);
  const auto whole = study::answer_cases(sweep, 0, 6, {.threads = 2}).value();
  std::size_t done = 0;
  for (std::size_t i = 0; i < 6; ++i) {
    CAPTURE(i);
    const auto one = study::answer_cases(sweep, i, i + 1, {.threads = 1}).value();
    for (const quantity::Group& group : one.groups()) {
      for (const quantity::Array& a : group.arrays) {
        const std::string path = group.path.empty() ? a.name : group.path + "/" + a.name;
        CAPTURE(path);
        const std::size_t length = a.size();
        for (std::size_t k = 0; k < length; ++k) {
          if (a.is_text) {
            CHECK(whole.texts(path)[i * length + k] == a.texts[k]);
          } else {
            const double here = whole.numbers(path)[i * length + k];
            CHECK((here == a.numbers[k] || (std::isnan(here) && std::isnan(a.numbers[k]))));
          }
        }
      }
    }
    if (status_of(whole, i) != State::done) {
      CHECK(status_of(whole, i) == State::bad_input);
      CHECK(has(whole.texts("failure")[i],
                "passage.from_m: -1 m is not allowed; allowed: less than -1.5 m with passage.to_m = -1.5 m"));
      CHECK(std::isnan(whole.numbers("measures/p2_kN")[i]));
      continue;
    }
    ++done;
    const study::Result alone = study::run(sweep.make(i));
    CHECK(whole.numbers("measures/p2_kN")[i] == Approx(1e-3 * alone.assessment.measures->p2).epsilon(1e-8));
    CHECK(whole.numbers("measures/wear_volume_mm3")[i] > 0.0);
    const auto& force = alone.history.force;
    const std::size_t samples = whole.find("history/force_N")->shape[1];
    CHECK(whole.numbers("history/force_N")[i * samples + 3] == Approx(force[150]).epsilon(1e-8));
    CHECK(whole.numbers("history/first_station_mm")[i] == Approx(1e3 * alone.history.station.front()));
  }
  CHECK(done == 3);
  CHECK_THROWS_AS(study::answer_cases(sweep, 4, 7), InputError);
}

TEST_CASE("A sweep told to end stores whole chunks only, and goes on from there") {
  const Folder folder;
  const study::Sweep sweep = quick(folder);
  io::StreamFile file(folder.path / "s.h5", sweep.stream(), 2);
  std::atomic<bool> stop{false};
  study::SweepOptions options{.threads = 1, .cancel = &stop};
  options.progress = [&](std::size_t done, std::size_t total) {
    CHECK(total == 6);
    stop = done >= 2;
  };
  const auto first = study::run_sweep(sweep, file, options);
  CHECK_FALSE(first.finished);
  CHECK(first.before == 0);
  CHECK(first.done == file.cases_complete());
  CHECK(first.done < 6);
  const auto second = study::run_sweep(sweep, file, {.threads = 2});
  CHECK(second.finished);
  CHECK(second.before == first.done);
  CHECK(second.done == 6);
  CHECK(file.missing().empty());
}
