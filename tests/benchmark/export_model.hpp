// Writes the equations of one passage as numbers, so that another program can integrate the same ones: a JSON header
// (model.json) with scalars and the list of arrays, and the arrays end to end as 64-bit floats in the machine's byte
// order (model.bin).
#pragma once

#include "workload.hpp"

#include <filesystem>

namespace benchmark {

void export_model(const Common& shared, const wingnose::passage::Passage& move, const std::filesystem::path& folder);

} // namespace benchmark
