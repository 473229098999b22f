// A file into which the answers of many cases stream, chunk by chunk, and which goes on where it was stopped.
//
// It is laid out in full when it is made, beside its place and then renamed; afterwards only numbers change, and a
// chunk of cases counts once its flag is set, after its numbers have reached the disk. Whenever the program is killed,
// the file stays readable and loses no finished chunk. It holds nothing that depends on time or machine: the same
// answers give the same bytes. Rows of cases not computed hold NaN. The HDF5 library is not thread-safe as commonly
// built: one thread at a time.
#pragma once

#include "wingnose/quantity/stream.hpp"

#include <cstddef>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace wingnose::io {

// Checksum of the work and of the program that does it: equal ones give the same numbers.
[[nodiscard]] std::string fingerprint(const quantity::Stream& stream);

class StreamFile : public quantity::Sink {
public:
  // Makes the file, or opens it to go on. cases_per_chunk counts for a new file only. Throws InputError: a file that is
  // not of this kind or one of other work, a folder that cannot be written, a file another program is writing;
  // ComputeError when reading or writing fails.
  StreamFile(const std::filesystem::path& file, const quantity::Stream& stream, std::size_t cases_per_chunk);
  StreamFile(const StreamFile&) = delete;
  StreamFile(StreamFile&&) noexcept;
  StreamFile& operator=(const StreamFile&) = delete;
  StreamFile& operator=(StreamFile&&) noexcept;
  ~StreamFile() override;

  [[nodiscard]] std::vector<Chunk> missing() const override;
  [[nodiscard]] std::size_t cases_complete() const;
  // Throws InputError for rows of another number.
  void write(const Chunk& chunk, const quantity::Tree& rows) override;

private:
  struct Open;
  std::unique_ptr<Open> open_;
};

} // namespace wingnose::io
