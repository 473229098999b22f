// Sweeps: which cases they consist of, and the file their results go into. Answers are made up here, so that what is
// read back can be told from what was written.
#include "catch.hpp"

#include "wingnose/io/sweep_file.hpp"
#include "wingnose/words/error.hpp"

#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>

using namespace wingnose;
namespace fs = std::filesystem;

namespace {

using State = study::Outcome::State;
const fs::path profiles = fs::path(WINGNOSE_SOURCE_DIR) / "profiles";

struct Folder {
  fs::path path = fs::temp_directory_path() / ("wingnose_io_sweep_" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path); }
  Folder(const Folder&) = delete;
  Folder(Folder&&) = delete;
  Folder& operator=(const Folder&) = delete;
  Folder& operator=(Folder&&) = delete;
  ~Folder() { fs::remove_all(path); }
};

std::string content(const fs::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

// Four offsets by three speeds; the offset moves the wheel path and is the dearer key.
io::Sweep grid(const std::string& speeds = "[80, 100, 120]") {
  return io::parse_sweep("case = \"demo.toml\"\n[[vary]]\nkey = \"passage.speed_km_h\"\nvalues = " + speeds +
                             "\n[[vary]]\nkey = \"wheel.lateral_offset_mm\"\nvalues = [-2, 0, 1, 2]\n",
                         "sweep.toml", profiles);
}

double made_up_p2(std::size_t i) { return 1000.0 * (100.0 + static_cast<double>(i)); } // N

void write_chunk(io::SweepFile& file, const io::Sweep& sweep, const io::SweepFile::Chunk& chunk) {
  std::vector<study::Case> cases;
  std::vector<study::Outcome> outcomes;
  for (std::size_t i = chunk.begin; i < chunk.end; ++i) {
    cases.push_back(sweep.make(i));
    study::Outcome outcome;
    if (i == 5) {
      outcome.state = State::could_not_compute;
      outcome.failure = "the wheel leaves the rail";
    } else {
      outcome.state = State::done;
      outcome.result.emplace();
      outcome.result->measures.p2 = made_up_p2(i);
    }
    outcomes.push_back(std::move(outcome));
  }
  file.write(chunk, io::sweep_rows(sweep, chunk.begin, cases, outcomes));
}

} // namespace

TEST_CASE("a grid holds all combinations, the key that moves the wheel path slowest") {
  const io::Sweep sweep = grid();
  REQUIRE(sweep.count() == 12);
  CHECK(sweep.columns()[0].key == "wheel.lateral_offset_mm");
  for (std::size_t i = 0; i < sweep.count(); ++i) {
    CHECK(sweep.value(i, 0) == sweep.columns()[0].values[i / 3]);
    CHECK(sweep.value(i, 1) == sweep.columns()[1].values[i % 3]);
    CHECK(sweep.make(i).passage.speed * 3.6 == Approx(std::get<double>(sweep.value(i, 1))));
  }
  CHECK(grid().fingerprint() == sweep.fingerprint());
  CHECK(grid("[80, 100, 121]").fingerprint() != sweep.fingerprint());
}

TEST_CASE("points come from a CSV file, one case per line, and a wrong value is told with its line") {
  const Folder folder;
  const auto sweep = [&folder](const std::string& csv) {
    std::ofstream(folder.path / "points.csv") << csv;
    return io::parse_sweep("case = \"" + (profiles / "demo.toml").string() + "\"\n[points]\ncsv = \"points.csv\"\n",
                           "sweep.toml", folder.path);
  };
  const io::Sweep good = sweep("passage.speed_km_h, wheel.lateral_offset_mm\n90, 1.5\n110, -2\n");
  REQUIRE(good.count() == 2);
  CHECK_FALSE(good.grid());
  CHECK(std::get<double>(good.value(1, 0)) == 110.0);
  CHECK(std::get<double>(good.value(0, 1)) == 1.5);
  try {
    (void)sweep("passage.speed_km_h\n90\n-5\n");
    FAIL("a negative speed was accepted");
  } catch (const InputError& error) {
    CHECK(std::string(error.what()).find("points.csv:3") != std::string::npos);
  }
}

TEST_CASE("a sweep stopped between chunks goes on to the same bytes; a failed case keeps its reason") {
  const Folder folder;
  const io::Sweep sweep = grid();
  const fs::path whole = folder.path / "whole.h5", halves = folder.path / "halves.h5";
  {
    io::SweepFile file(whole, sweep, 5);
    CHECK(file.cases_complete() == 0);
    for (const auto& chunk : file.missing()) {
      write_chunk(file, sweep, chunk);
    }
    CHECK(file.cases_complete() == 12);
  }
  {
    io::SweepFile file(halves, sweep, 5);
    write_chunk(file, sweep, file.missing().at(1)); // the order does not matter
  }
  const io::StoredSweep half = io::read_sweep_file(halves);
  CHECK(half.chunks == 3);
  CHECK(half.chunks_complete == 1);
  CHECK(half.status[0] == State::not_run);
  CHECK(half.status[6] == State::done);
  CHECK(std::isnan(half.measures.at("p2_kN").values[0]));
  CHECK(half.measures.at("p2_kN").values[6] == Approx(made_up_p2(6) * 1e-3));
  {
    io::SweepFile file(halves, sweep, 7); // the size of chunks stays that of the file
    CHECK(file.cases_complete() == 5);
    for (const auto& chunk : file.missing()) {
      write_chunk(file, sweep, chunk);
    }
  }
  CHECK(content(halves) == content(whole));
  const io::StoredSweep stored = io::read_sweep_file(halves);
  CHECK(stored.count() == 12);
  CHECK(stored.failures == std::map<std::size_t, std::string>{{5, "the wheel leaves the rail"}});
  CHECK(std::isnan(stored.measures.at("p2_kN").values[5]));
  CHECK(stored.measures.at("p2_kN").unit == "kN");
  CHECK(stored.axes == std::vector<std::string>{"wheel.lateral_offset_mm", "passage.speed_km_h"});
  CHECK(stored.axis_values.at("passage.speed_km_h").values == std::vector<double>{80, 100, 120});
  CHECK(stored.inputs.at("passage.speed_km_h").values[4] == 100.0);
  CHECK(stored.case_text == sweep.document().base().source_text);
}

TEST_CASE("a file that holds another sweep, or none, is refused") {
  const Folder folder;
  const fs::path file = folder.path / "s.h5";
  { const io::SweepFile made(file, grid(), 4); }
  CHECK_THROWS_AS(io::SweepFile(file, grid("[80, 100]"), 4), InputError);
  CHECK_NOTHROW(io::SweepFile(file, grid(), 4));
  std::ofstream(folder.path / "text.h5") << "no HDF5";
  CHECK_THROWS_AS(io::SweepFile(folder.path / "text.h5", grid(), 4), InputError);
  CHECK_THROWS_AS(io::read_sweep_file(folder.path / "missing.h5"), InputError);
}
