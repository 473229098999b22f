#include "csv.hpp"
#include "draft.hpp"
#include "wingnose/words/text.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>

namespace wingnose::io {

namespace {

constexpr double mm = 1e-3;

Csv load(Draft& draft, const FileRef& file, const std::string& role, const std::vector<std::string>& columns,
         const std::filesystem::path& folder) {
  const std::string text = read_text(file.path, file.where);
  add_input(draft.c, role, file.path, text, folder);
  return parse_csv(text, file.path.generic_string(), columns);
}

// Rows of one station stand together; a station that comes back later is a sorting accident that would silently split
// a section in two.
layout::SectionedBody sectioned_body(const Csv& csv, const std::string& name) {
  const auto &station = csv.columns[0], &y = csv.columns[1], &z = csv.columns[2];
  layout::SectionedBody body{name, {}};
  for (std::size_t i = 0; i < csv.rows(); ++i) {
    const double x = mm * station[i];
    if (body.sections.empty() || body.sections.back().station != x) {
      const bool back = std::any_of(body.sections.begin(), body.sections.end(),
                                    [x](const layout::Section& s) { return s.station == x; });
      if (back) {
        throw InputError(csv.name + ":" + std::to_string(csv.line[i]) + ": station_mm " + plain(station[i]) +
                         " appeared earlier; keep the points of one section together");
      }
      body.sections.push_back({x, {}, {}});
    }
    body.sections.back().y.push_back(mm * y[i]);
    body.sections.back().z.push_back(mm * z[i]);
  }
  std::stable_sort(body.sections.begin(), body.sections.end(),
                   [](const layout::Section& a, const layout::Section& b) { return a.station < b.station; });
  return body;
}

layout::SectionedShape sections(Draft& draft, const std::filesystem::path& folder) {
  const std::vector<std::string> columns{"station_mm", "y_mm", "z_mm"};
  layout::SectionedShape shape;
  shape.name = draft.where.count("crossing.name") != 0 ? draft.shape.name : shape.name;
  shape.rate = draft.shape.rate;
  shape.gauge = draft.shape.gauge;
  shape.noise = draft.section_noise;
  shape.bodies.push_back(sectioned_body(load(draft, draft.wing_csv, "wing sections", columns, folder), "wing"));
  shape.bodies.push_back(sectioned_body(load(draft, draft.nose_csv, "nose sections", columns, folder), "nose"));
  return shape;
}

layout::GivenPath path(Draft& draft, const std::filesystem::path& folder) {
  const Csv csv = load(draft, draft.path_csv, "wheel path", {"station_mm", "height_mm"}, folder);
  if (csv.rows() < 2) {
    throw InputError(csv.name + ": one point is no path; give at least two");
  }
  layout::GivenPath given;
  for (std::size_t i = 0; i < csv.rows(); ++i) {
    if (i > 0 && csv.columns[0][i] <= csv.columns[0][i - 1]) {
      throw InputError(csv.name + ":" + std::to_string(csv.line[i]), "station_mm " + plain(csv.columns[0][i]),
                       "more than the station before (" + plain(csv.columns[0][i - 1]) + ")",
                       "Order the points by station and remove duplicates.");
    }
    given.station.push_back(mm * csv.columns[0][i]);
    given.height.push_back(mm * csv.columns[1][i]);
  }
  return given;
}

} // namespace

void build_excitation(Draft& draft, const std::filesystem::path& folder) {
  if (draft.kind == "generated") {
    draft.c.excitation = draft.shape;
  } else if (draft.kind == "sections") {
    draft.c.excitation = sections(draft, folder);
  } else if (draft.kind == "joint") {
    draft.joint.shape =
        draft.joint_shape == "kink" ? layout::DippedJoint::Shape::kink : layout::DippedJoint::Shape::quadratic;
    draft.c.excitation = draft.joint;
  } else {
    draft.c.excitation = path(draft, folder);
  }
}

} // namespace wingnose::io
