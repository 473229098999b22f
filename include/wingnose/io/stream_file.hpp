// A file into which the answers of many cases stream, chunk by chunk, and which goes on where it was stopped.
//
// It is laid out in full when it is made, beside its place and then renamed; afterwards only numbers change, and a
// chunk of cases counts once its flag is set, after its numbers have reached the disk. Whenever the program is killed,
// the file stays readable and loses no finished chunk. It holds nothing that depends on time or machine: the same
// answers give the same bytes. Rows of cases not computed hold NaN. The HDF5 library is not thread-safe as commonly
// built: one thread at a time.
#pragma once

#include "wingnose/case/document.hpp"
#include "wingnose/quantity/tree.hpp"

#include <cstddef>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace wingnose::io {

// A dataset with one row per case.
struct StreamColumn {
  std::string group;
  quantity::Array array; // without values; dims begin with "case", shape gives the length of a row of two dimensions
  enum class As { number, single_precision, small_number, text } as = As::number;
  std::size_t text_length = 0;                            // bytes kept of a text
  std::function<cases::KeyValue(std::size_t)> known = {}; // values known before anything is computed
};

struct Stream {
  quantity::Tree head; // attributes, and arrays that are there from the beginning; kind and fingerprint of the work
  std::vector<StreamColumn> columns;
  std::size_t count = 0; // cases
  std::string fingerprint;
};

class StreamFile {
public:
  // Makes the file, or opens it to go on. cases_per_chunk counts for a new file only. Throws InputError: a file that is
  // not of this kind or one of other work, a folder that cannot be written, a file another program is writing;
  // ComputeError when reading or writing fails.
  StreamFile(const std::filesystem::path& file, const Stream& stream, std::size_t cases_per_chunk);
  StreamFile(const StreamFile&) = delete;
  StreamFile(StreamFile&&) noexcept;
  StreamFile& operator=(const StreamFile&) = delete;
  StreamFile& operator=(StreamFile&&) noexcept;
  ~StreamFile();

  struct Chunk {
    std::size_t index, begin, end; // cases [begin, end)
  };
  [[nodiscard]] std::vector<Chunk> missing() const; // chunks not complete, in order
  [[nodiscard]] std::size_t cases_complete() const;
  // rows of all cases of the chunk, laid out as the columns; it counts when this returns. Throws InputError for rows of
  // another number.
  void write(const Chunk& chunk, const quantity::Tree& rows);

private:
  struct Open;
  std::unique_ptr<Open> open_;
};

} // namespace wingnose::io
