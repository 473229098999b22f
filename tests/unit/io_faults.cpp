// Full disks, damaged files, devices: what is written is whole, what is read is sound, or it is told.
#include "answers.hpp"
#include "catch.hpp"
#include "file_limit.hpp"
#include "folder.hpp"
#include "said.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/stream_file.hpp"
#include "wingnose/io/tree_file.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/visible.hpp"

#include <hdf5.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <random>
#include <sstream>
#include <string>

using namespace wingnose;
using quantity::Stream;
using quantity::Tree;
using said::has;
using said::refusal;
using Chunk = quantity::Sink::Chunk;

namespace {

std::string content(const fs::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

Tree a_run() { return study::tell(io::read_case(profiles / "demo.toml"), answers::run()); }

constexpr std::size_t cases = 50, chunk_size = 8;

Stream a_stream() {
  Stream stream{Tree("sweep"), {}, cases, "made up"};
  stream.head.attributes.emplace_back("name", "made up");
  const auto column = [&](const std::string& group, const std::string& name, quantity::StreamColumn::As as) {
    quantity::StreamColumn c;
    c.group = group;
    c.array.name = name;
    c.array.dims = {"case"};
    c.array.shape = {cases};
    c.array.is_text = as == quantity::StreamColumn::As::text;
    c.as = as;
    c.text_length = 20;
    stream.columns.push_back(c);
  };
  using As = quantity::StreamColumn::As;
  column("input", "speed", As::number);
  stream.columns.back().known = [](std::size_t i) { return static_cast<double>(i); };
  column("measures", "p2_kN", As::number);
  column("history", "force_N", As::single_precision);
  stream.columns.back().array.dims = {"case", "sample"};
  stream.columns.back().array.shape = {cases, 30};
  column("", "status", As::small_number);
  column("", "failure", As::text);
  return stream;
}

Tree rows_of(const Stream& stream, const Chunk& chunk) {
  Tree rows("sweep");
  for (const auto& column : stream.columns) {
    if (!column.known) {
      quantity::Array a = column.array;
      const std::size_t n = chunk.end - chunk.begin, length = a.shape.size() > 1 ? a.shape[1] : 1;
      a.shape[0] = n;
      for (std::size_t i = 0; i < n * length; ++i) {
        const std::size_t value = chunk.begin * length + i;
        a.is_text ? a.texts.push_back(value % 3 == 0 ? "the wheel leaves" : "")
                  : a.numbers.push_back(static_cast<double>(column.array.name == "status" ? 1 : value) + 0.0);
      }
      rows.add(column.group, std::move(a));
    }
  }
  return rows;
}

void fill(io::StreamFile& file, const Stream& stream, std::size_t chunks = 1000) {
  for (const Chunk& chunk : file.missing()) {
    if (chunks-- == 0) {
      return;
    }
    file.write(chunk, rows_of(stream, chunk));
  }
}

} // namespace

TEST_CASE("On a full disk a result is told as not written, nothing is left and the one before stays") {
  const Folder folder;
  const fs::path file = folder.path / "run.h5";
  const Tree tree = a_run();
  io::write_tree(file, tree);
  const std::string before = content(file);
  for (const std::size_t limit : {0UL, 100UL, 4096UL, 30000UL, before.size() / 2, before.size() - 1}) {
    const std::string told = [&] {
      const FileLimit full(limit);
      return refusal<ComputeError>([&] { io::write_tree(file, tree); });
    }();
    INFO("limit " << limit << ": " << told);
    CHECK(has(told, "run.h5\" could not be written: File too large; free some space"));
    CHECK(folder.files() == 1);
    const bool kept = content(file) == before;
    CHECK(kept);
  }
  io::write_tree(file, tree); // the library is none the worse for it
  const bool same = content(file) == before;
  CHECK(same);
}

TEST_CASE("A program that met a full disk ends as programs end") {
  const Folder folder;
  const Tree tree = a_run();
  const pid_t child = ::fork();
  if (child == 0) {
    const FileLimit full(20000);
    const bool told = !refusal<ComputeError>([&] { io::write_tree(folder.path / "run.h5", tree); }).empty();
    H5close(); // as at the end of a program, where the library used to fall over
    ::_exit(told ? 0 : 1);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  CHECK(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 0);
}

TEST_CASE("A sweep that met a full disk keeps its finished chunks and goes on to the same bytes") {
  const Folder folder;
  const fs::path whole = folder.path / "whole.h5", stopped = folder.path / "stopped.h5";
  const Stream stream = a_stream();
  {
    const FileLimit full(3000); // not even its beginning
    CHECK(has(refusal<ComputeError>([&] { const io::StreamFile f(stopped, stream, chunk_size); }), "File too large"));
  }
  CHECK(folder.files() == 0);
  {
    io::StreamFile file(whole, stream, chunk_size);
    fill(file, stream);
  }
  {
    io::StreamFile file(stopped, stream, chunk_size);
    fill(file, stream, 2);
    const FileLimit full(10000);
    const Chunk next = file.missing().front();
    const std::string told = refusal<ComputeError>([&] { file.write(next, rows_of(stream, next)); });
    CHECK(has(told, "stopped.h5\" could not be written: File too large"));
    CHECK(has(told, "16 of 50 cases are stored; give the same command again"));
  }
  CHECK(io::read_tree(stopped).numbers("chunk_complete")[1] == 1.0);
  io::StreamFile file(stopped, stream, chunk_size);
  CHECK(file.cases_complete() == 2 * chunk_size);
  fill(file, stream);
  const bool same = content(stopped) == content(whole);
  CHECK(same);
}

TEST_CASE("A result with any byte changed is damaged, and so is one cut short") {
  const Folder folder;
  const fs::path file = folder.path / "run.h5";
  io::write_tree(file, a_run());
  const std::string sound = content(file);
  std::mt19937 random(3);
  for (int i = 0; i < 200; ++i) {
    std::string bytes = sound;
    const std::size_t at = std::uniform_int_distribution<std::size_t>(0, bytes.size() - 1)(random);
    bytes[at] = static_cast<char>(bytes[at] ^ (1 << (i % 8)));
    std::ofstream(file, std::ios::binary) << bytes;
    const std::string told = refusal<InputError>([&] { (void)io::read_tree(file, quantity::Detail::printed); });
    INFO("byte " << at << ": " << told);
    CHECK(has(told, "run.h5\" is "));
  }
  for (const double part : {0.1, 0.5, 0.9, 0.9999}) {
    std::ofstream(file, std::ios::binary) << sound.substr(0, static_cast<std::size_t>(part * double(sound.size())));
    CHECK_THROWS_AS(io::read_tree(file), InputError);
  }
  std::ofstream(file, std::ios::binary) << sound;
  CHECK_NOTHROW(io::read_tree(file));
}

TEST_CASE("A byte changed in a sweep is found, and its chunk computed again to the same bytes") {
  const Folder folder;
  const fs::path file = folder.path / "sweep.h5";
  const Stream stream = a_stream();
  {
    io::StreamFile made(file, stream, chunk_size);
    fill(made, stream);
  }
  const std::string sound = content(file);
  std::mt19937 random(4);
  int in_rows = 0;
  for (int i = 0; i < 200; ++i) {
    std::string bytes = sound;
    const std::size_t at = std::uniform_int_distribution<std::size_t>(0, bytes.size() - 1)(random);
    bytes[at] = static_cast<char>(bytes[at] ^ (1 << (i % 8)));
    std::ofstream(file, std::ios::binary) << bytes;
    const std::string told = refusal<InputError>([&] { (void)io::read_tree(file); });
    INFO("byte " << at << ": " << told);
    CHECK(has(told, "sweep.h5\" "));
    if (has(told, "damaged from case")) {
      ++in_rows;
      io::StreamFile again(file, stream, chunk_size);
      CHECK(again.missing().size() == 1);
      fill(again, stream);
      const bool mended = content(file) == sound;
      CHECK(mended);
    }
  }
  CHECK(in_rows > 50);
}

TEST_CASE("A process forked from one that fills a sweep may not write, and does not keep the file") {
  const Folder folder;
  const Stream stream = a_stream();
  const fs::path file = folder.path / "sweep.h5";
  int pipe_of[2];
  REQUIRE(::pipe(pipe_of) == 0);
  auto open = std::make_unique<io::StreamFile>(file, stream, chunk_size);
  const pid_t child = ::fork();
  if (child == 0) {
    const Chunk first = open->missing().front();
    const bool refused =
        has(refusal<InputError>([&] { open->write(first, rows_of(stream, first)); }), "opened by another process");
    char waits = 0;
    (void)!::read(pipe_of[0], &waits, 1); // lives on with the file open
    ::_exit(refused ? 0 : 1);
  }
  fill(*open, stream, 2);
  open.reset();
  CHECK(io::read_tree(file).numbers("status")[0] == 1.0);
  CHECK(io::StreamFile(file, stream, chunk_size).cases_complete() == 2 * chunk_size);
  REQUIRE(::write(pipe_of[1], "x", 1) == 1);
  int status = 0;
  ::waitpid(child, &status, 0);
  CHECK(WEXITSTATUS(status) == 0);
}

TEST_CASE("Two at once do not write one sweep") {
  const Folder folder;
  const Stream stream = a_stream();
  const io::StreamFile one(folder.path / "s.h5", stream, chunk_size);
  CHECK(has(refusal<InputError>([&] { const io::StreamFile two(folder.path / "s.h5", stream, chunk_size); }),
            "another program may be writing it"));
}

TEST_CASE("Only regular files of a stated size are read as text, and only those are written") {
  const Folder folder;
  REQUIRE(::mkfifo((folder.path / "pipe").c_str(), 0600) == 0);
  fs::create_symlink("/dev/zero", folder.path / "wheel.csv");
  for (const fs::path& file : {fs::path("/dev/zero"), fs::path("/dev/stdin"), folder.path / "pipe"}) {
    const auto base = [&] { (void)io::parse_case("base = \"" + file.string() + "\"\n", "c.toml", "."); };
    const auto wheel = [&] {
      (void)io::parse_case("base = \"" + (profiles / "demo.toml").string() +
                               "\"\n[wheel]\nprofile = \"measured\"\ncsv = \"" + file.string() + "\"\n",
                           "c.toml", ".");
    };
    CHECK_THROWS_AS(base(), InputError);
    CHECK_THROWS_AS(wheel(), InputError);
    CHECK_THROWS_AS(io::read_tree(file), InputError);
  }
  CHECK(has(refusal<InputError>([&] { (void)io::read_text(folder.path / "wheel.csv", "case.toml:3: wheel.csv"); }),
            "case.toml:3: wheel.csv: \"" + (folder.path / "wheel.csv").generic_string() + "\" is a device"));
  CHECK(has(refusal<InputError>([&] { io::check_target(folder.path / "pipe"); }), "is a device, a pipe or a socket"));
  fs::resize_file((folder.write("long", "x"), folder.path / "long"), io::largest_text + 1); // takes no room
  CHECK(has(refusal<InputError>([&] { (void)io::read_text(folder.path / "long"); }), "larger than 256 MB"));
}

TEST_CASE("Control characters are shown and not obeyed") {
  CHECK(visible("a\x1b[2Jb\r\n\tc\x7f") == "a\\x1b[2Jb\\x0d\\n\\tc\\x7f");
  CHECK(visible("Kölner Straße – 30°") == "Kölner Straße – 30°");
  CHECK(visible("\xC2\x9B") == "\\x9b");
}
