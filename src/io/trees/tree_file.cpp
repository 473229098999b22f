#include "wingnose/io/tree_file.hpp"

#include "hdf5_handle.hpp"
#include "stream_places.hpp"
#include "tree_head.hpp"
#include "whole_file.hpp"

#include "wingnose/version.hpp"

#include <unistd.h>

#include <algorithm>
#include <limits>
#include <map>

namespace wingnose::io {
namespace {

namespace fs = std::filesystem;
using quantity::Array;
using quantity::Detail;
using quantity::Group;
using quantity::Layout;
using quantity::Tree;

constexpr const char* ours = "wingnose "; // what `format` begins with

void write_head(hid_t file, const Tree& tree, const std::string& checksum) {
  h5::write_attribute(file, "format", ours + tree.kind());
  h5::write_attribute(file, "schema_version", layout_version);
  h5::write_attribute(file, "version", std::string(version));
  h5::write_attribute(file, "commit", std::string(commit));
  for (const auto& [name, text] : tree.attributes) {
    if (!h5::has_attribute(file, name)) {
      h5::write_attribute(file, name, text);
    }
  }
  h5::write_attribute(file, "caution", std::string(caution));
  h5::write_fixed_attribute(file, checksum_name, checksum);
}

void write_array(hid_t file, const std::string& group, const Array& a) {
  const std::string path = group.empty() ? a.name : group + "/" + a.name;
  a.is_text ? h5::write_texts(file, path, a.texts, a.shape) : h5::write_numbers(file, path, a.numbers, a.shape);
  describe(h5::open_dataset(file, path).id(), a);
}

// --- reading ---------------------------------------------------------------------------------------------------------

[[noreturn]] void refuse(const fs::path& file, const std::string& why) {
  throw InputError("result file \"" + file.generic_string() + "\" " + why);
}

std::string text_of(hid_t object, const std::string& name) {
  return h5::has_attribute(object, name) ? h5::read_text_attribute(object, name) : "";
}
int int_of(hid_t object, const std::string& name, int otherwise) {
  return h5::has_attribute(object, name) ? h5::read_int_attribute(object, name) : otherwise;
}

// A choice kept as its number; last: the one with the highest.
template <class Choice>
Choice choice_of(hid_t object, const std::string& name, Choice otherwise, Choice last, const std::string& of) {
  const int number = int_of(object, name, static_cast<int>(otherwise));
  if (number < 0 || number > static_cast<int>(last)) {
    throw ComputeError(name + " of " + of + " is " + std::to_string(number));
  }
  return static_cast<Choice>(number);
}

// Arrays of a group that share a dimension are as long in it: tables and coordinates rest on that.
void check_lengths(const Group& group, const Array& a) {
  for (const Array& other : group.arrays) {
    for (std::size_t d = 0; d < a.dims.size(); ++d) {
      for (std::size_t e = 0; e < other.dims.size(); ++e) {
        if (a.dims[d] == other.dims[e] && a.shape[d] != other.shape[e]) {
          throw ComputeError(a.name + " and " + other.name + " differ in length along " + a.dims[d]);
        }
      }
    }
  }
}

Tree read_head(hid_t file, const fs::path& name) {
  const std::string format = text_of(file, "format");
  if (!format.starts_with(ours)) {
    refuse(name, "is an HDF5 file, but not of wingnose; give one that a command wrote with -o");
  }
  const int version = int_of(file, "schema_version", 0);
  if (version > layout_version) {
    refuse(name, "has schema version " + std::to_string(version) + ", newer than " + std::to_string(layout_version) +
                     ", the newest this program knows; use a newer wingnose");
  }
  Tree tree(format.substr(std::string(ours).size()));
  for (const auto& attribute : h5::attribute_names(file)) {
    const std::string text = h5::read_text_attribute(file, attribute);
    const bool ours_alone = attribute == "format" || attribute == "caution" || attribute == checksum_name;
    if (!ours_alone && !text.empty()) { // numbers are read by who needs them
      tree.attributes.emplace_back(attribute, text);
    }
  }
  tree.attributes.emplace_back("schema_version", std::to_string(version));
  return tree;
}

Array read_array(hid_t file, const std::string& path, Detail detail) {
  const h5::Handle dataset = h5::open_dataset(file, path);
  Array a;
  a.name = path.substr(path.rfind('/') + 1);
  a.is_text = h5::is_text(dataset);
  a.shape = h5::shape(dataset);
  const Detail otherwise =
      a.shape.empty() || path.starts_with("notes/") ? Detail::printed : Detail::told; // version 0.1
  a.detail = choice_of(dataset.id(), "detail", otherwise, Detail::stored, path);
  // Files of version 0.1 hold no labels: the table has those of today's numbers, of others the name must do.
  const quantity::Quantity* known = quantity::find(a.name);
  const bool labelled = h5::has_attribute(dataset.id(), "label");
  a.unit = text_of(dataset.id(), "unit");
  a.label = labelled ? text_of(dataset.id(), "label") : known != nullptr ? std::string(known->label) : a.name;
  a.meaning = text_of(dataset.id(), "description");
  a.block = text_of(dataset.id(), "block");
  a.decimals = std::clamp(int_of(dataset.id(), "decimals", known != nullptr ? known->decimals : 6), 0, 17);
  a.told_if_none = int_of(dataset.id(), "told_if_none", 0) != 0;
  if (h5::has_attribute(dataset.id(), "dims")) {
    a.dims = h5::read_texts_attribute(dataset.id(), "dims");
  }
  if (a.dims.size() > a.shape.size()) {
    throw ComputeError(path + " has " + std::to_string(a.shape.size()) + " dimensions and names for " +
                       std::to_string(a.dims.size()));
  }
  for (std::size_t d = a.dims.size(); d < a.shape.size(); ++d) { // a file of version 0.1
    std::string name = "dim_" + std::to_string(a.shape[d]);
    while (std::find(a.dims.begin(), a.dims.end(), name) != a.dims.end()) { // a square one
      name += "_across";
    }
    a.dims.push_back(std::move(name));
  }
  if (a.detail > detail && !a.shape.empty()) {
    return a; // its place is known, its values are left
  }
  if (a.is_text) {
    a.texts = h5::read_texts(dataset);
  } else {
    a.numbers = h5::read_numbers(dataset);
  }
  return a;
}

h5::Handle open_group(hid_t file, const std::string& path) {
  return {H5Gopen2(file, path.empty() ? "/" : path.c_str(), H5P_DEFAULT), H5Gclose, "group " + path};
}

void read_content(hid_t file, Detail detail, Tree& tree) {
  std::map<std::string, int> places; // of groups in the answer
  places[""] = int_of(file, "place", 0);
  for (const auto& path : h5::paths(file)) {
    if (path.ends_with('/')) {
      Group& group = tree.group(path.substr(0, path.size() - 1));
      const h5::Handle made = open_group(file, group.path);
      group.title = text_of(made.id(), "title");
      const Layout otherwise = group.path == "notes" ? Layout::sentences : Layout::rows; // version 0.1
      group.layout = choice_of(made.id(), "layout", otherwise, Layout::sentences, group.path);
      places[group.path] = int_of(made.id(), "place", std::numeric_limits<int>::max());
      continue;
    }
    const auto cut = path.rfind('/');
    const std::string home = cut == std::string::npos ? "" : path.substr(0, cut);
    Array array = read_array(file, path, detail);
    check_lengths(tree.group(home), array);
    tree.add(home, std::move(array));
  }
  std::erase_if(tree.groups(), [](const Group& group) { return group.arrays.empty(); }); // only on the way to others
  std::stable_sort(tree.groups().begin(), tree.groups().end(),
                   [&](const Group& a, const Group& b) { return places[a.path] < places[b.path]; });
}

// A chunk that was being written when the program ended does not count.
void mask_incomplete(const std::vector<ChunkState>& chunks, std::size_t per_chunk, Tree& tree) {
  for (Group& group : tree.groups()) {
    for (Array& a : group.arrays) {
      const bool computed = !a.dims.empty() && a.dims.front() == "case" && group.path != "input" && a.size() > 0;
      const std::size_t rows = computed ? a.shape.front() : 0, length = rows > 0 ? a.size() / rows : 0;
      for (std::size_t i = 0; i < rows; ++i) {
        if (i / per_chunk >= chunks.size() || chunks[i / per_chunk] == ChunkState::complete) {
          continue;
        }
        for (std::size_t k = i * length; k < (i + 1) * length; ++k) {
          if (a.is_text) {
            a.texts[k].clear();
          } else {
            a.numbers[k] = a.name == "status" ? 0.0 : std::numeric_limits<double>::quiet_NaN();
          }
        }
      }
    }
  }
}

// Of a file of many cases: what each of its chunks is worth.
std::vector<ChunkState> verify_chunks(const fs::path& name, const StreamPlaces& places) {
  auto chunks = chunk_states(Descriptor(name, Descriptor::For::reading), places);
  const auto bad = std::find(chunks.begin(), chunks.end(), ChunkState::damaged);
  if (bad != chunks.end()) {
    const auto begin = static_cast<std::size_t>(bad - chunks.begin()) * places.per_chunk;
    refuse(name, "is damaged from case " + std::to_string(begin) +
                     " on: its rows do not fit their checksum; give the "
                     "sweep command again with this file, it computes the damaged cases anew");
  }
  return chunks;
}

} // namespace

void describe(hid_t dataset, const Array& a) {
  h5::write_attribute(dataset, "unit", a.unit);
  h5::write_attribute(dataset, "description", a.meaning);
  h5::write_attribute(dataset, "label", a.label);
  h5::write_attribute(dataset, "detail", static_cast<int>(a.detail));
  if (!a.dims.empty()) {
    h5::write_attribute(dataset, "dims", a.dims);
  }
  if (!a.is_text) {
    h5::write_attribute(dataset, "decimals", a.decimals);
  }
  if (!a.block.empty()) {
    h5::write_attribute(dataset, "block", a.block);
  }
  if (a.told_if_none) {
    h5::write_attribute(dataset, "told_if_none", 1);
  }
}

void write_groups(hid_t file, const Tree& tree, const std::string& checksum) {
  write_head(file, tree, checksum);
  int place = 0;
  for (const Group& group : tree.groups()) {
    h5::make_groups(file, group.path);
    const h5::Handle made = open_group(file, group.path);
    h5::write_attribute(made.id(), "place", place++);
    if (!group.path.empty()) {
      if (!group.title.empty()) {
        h5::write_attribute(made.id(), "title", group.title);
      }
      h5::write_attribute(made.id(), "layout", static_cast<int>(group.layout));
    }
    for (const Array& array : group.arrays) {
      write_array(file, group.path, array);
    }
  }
}

void check_target(const fs::path& file) {
  std::error_code ignored;
  const fs::path folder = file.parent_path();
  if (file.filename().empty() || fs::is_directory(file, ignored)) {
    throw InputError("result file \"" + file.string() + "\" is a folder; give a file name such as result.h5");
  }
  if (fs::exists(file, ignored) && !fs::is_regular_file(file, ignored)) {
    throw InputError("result file \"" + file.string() +
                     "\" is a device, a pipe or a socket; give the name of a regular file such as result.h5");
  }
  // A slip such as "-o case.toml" must not cost the user that file.
  const h5::QuietErrors quiet;
  if (fs::exists(file, ignored) && H5Fis_hdf5(file.c_str()) <= 0) {
    throw InputError("\"" + file.string() +
                     "\" exists and is no HDF5 file; it is not replaced by a result, choose another name");
  }
  if (!folder.empty() && !fs::is_directory(folder, ignored)) {
    throw InputError("the folder \"" + folder.string() + "\" of the result file does not exist; make it first");
  }
  if (::access(folder.empty() ? "." : folder.c_str(), W_OK) != 0) {
    throw InputError("the folder \"" + (folder.empty() ? std::string(".") : folder.string()) +
                     "\" of the result file cannot be written to; choose another");
  }
}

void write_tree(const fs::path& file, const Tree& tree) {
  check_target(file);
  write_whole(file, [&](hid_t target) { write_groups(target, tree, unsealed()); });
}

Tree read_tree(const fs::path& file, Detail detail) {
  std::error_code ignored;
  if (!fs::is_regular_file(file, ignored)) {
    refuse(file, fs::is_directory(file, ignored) ? "is a folder; name a file in it"
                 : fs::exists(file, ignored)     ? "is a device, a pipe or a socket; name a regular file"
                                                 : "does not exist; check the name and the folder");
  }
  const h5::QuietErrors quiet;
  if (H5Fis_hdf5(file.string().c_str()) <= 0) {
    refuse(file, "is not an HDF5 file, or another program is writing it; give one that a command wrote with -o");
  }
  try {
    // Nothing is believed, nor looked at by the library, before the checksum is found right. Files of before there were
    // any are read as they are.
    const Seal seal = seal_of(file);
    if (seal == Seal::broken) {
      refuse(file, damaged_file);
    }
    const h5::Handle source = h5::open(file.string());
    Tree tree = read_head(source.id(), file);
    if (seal == Seal::none && h5::has_attribute(source.id(), checksum_name)) {
      refuse(file, damaged_file);
    }
    if (!h5::has_attribute(source.id(), "cases_per_chunk")) {
      read_content(source.id(), detail, tree);
      return tree;
    }
    const StreamPlaces places = places_of(source.id());
    const auto chunks = verify_chunks(file, places);
    read_content(source.id(), detail, tree);
    tree.attributes.emplace_back("cases_per_chunk", std::to_string(places.per_chunk));
    mask_incomplete(chunks, places.per_chunk, tree);
    return tree;
  } catch (const ComputeError& error) {
    refuse(file, std::string("cannot be read to the end: ") + error.what());
  }
}

} // namespace wingnose::io
