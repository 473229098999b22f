// How a sweep file is laid out; what maker, writer and reader of it share.
#pragma once

#include "hdf5_handle.hpp"

#include "wingnose/io/sweep_file.hpp"

#include <string>

namespace wingnose::io {

inline constexpr const char* sweep_format = "wingnose sweep";
// Bytes kept of why a case failed. All texts are of fixed length: texts of variable length live in a heap that moves.
inline constexpr std::size_t failure_length = 400;

[[nodiscard]] bool is_text(const SweepColumn& column);
void demand(herr_t status, const std::string& what); // throws ComputeError
[[nodiscard]] h5::Handle fixed_text(std::size_t length);

// Makes the complete file at `file`, which must not exist. Throws ComputeError.
void lay_out_sweep(const std::string& file, const Sweep& sweep, std::size_t cases_per_chunk);

// Writes rows [begin, begin + count) of a dataset.
void write_rows(hid_t dataset, hid_t type, std::size_t begin, std::size_t count, const void* values);
// Writes row `row`, of `length` elements, of a dataset [case, sample].
void write_row(hid_t dataset, hid_t type, std::size_t row, std::size_t length, const void* values);

} // namespace wingnose::io
