#include "hdf5_handle.hpp"

#include <algorithm>
#include <functional>
#include <numeric>

namespace wingnose::io::h5 {

void demand(herr_t status, std::string_view what) {
  if (status < 0) {
    throw ComputeError("HDF5 refused: " + std::string(what));
  }
}

namespace {

Handle text_type() {
  Handle type(H5Tcopy(H5T_C_S1), H5Tclose, "text type");
  demand(H5Tset_size(type.id(), H5T_VARIABLE), "text type");
  demand(H5Tset_cset(type.id(), H5T_CSET_UTF8), "text type");
  return type;
}

Handle scalar_space() { return {H5Screate(H5S_SCALAR), H5Sclose, "scalar space"}; }

Handle space_of(const std::vector<hsize_t>& shape) {
  return shape.empty()
             ? scalar_space()
             : Handle(H5Screate_simple(static_cast<int>(shape.size()), shape.data(), nullptr), H5Sclose, "array space");
}

// shape: of what may be packed, one or two lengths; empty for scalars and texts.
Handle make_dataset(hid_t file, const std::string& path, hid_t type, const Handle& space,
                    const std::vector<hsize_t>& shape) {
  const Handle layout(H5Pcreate(H5P_DATASET_CREATE), H5Pclose, "dataset properties");
  // The hour of writing would make every file differ from the next of the same numbers.
  demand(H5Pset_obj_track_times(layout.id(), false), "times");
  constexpr std::size_t worth_packing = 2048; // below, chunking costs more than it saves
  const hsize_t count =
      std::accumulate(shape.begin(), shape.end(), hsize_t{shape.empty() ? 0U : 1U}, std::multiplies<>());
  if (count > worth_packing) {
    constexpr hsize_t longest = 65536; // about 256 x 256 of a table
    std::vector<hsize_t> chunk = shape;
    for (hsize_t& length : chunk) {
      length = std::min<hsize_t>(length, shape.size() == 1 ? longest : 256);
    }
    demand(H5Pset_chunk(layout.id(), static_cast<int>(chunk.size()), chunk.data()), "chunks");
    demand(H5Pset_shuffle(layout.id()), "shuffle");
    if (H5Zfilter_avail(H5Z_FILTER_DEFLATE) > 0) {
      demand(H5Pset_deflate(layout.id(), 1), "compression");
    }
  }
  return {H5Dcreate2(file, path.c_str(), type, space.id(), H5P_DEFAULT, layout.id(), H5P_DEFAULT), H5Dclose,
          "dataset " + path};
}

std::vector<const char*> pointers(const std::vector<std::string>& texts) {
  std::vector<const char*> list;
  list.reserve(texts.size());
  for (const auto& text : texts) {
    list.push_back(text.c_str());
  }
  return list;
}

} // namespace

void make_groups(hid_t file, const std::string& path) {
  const Handle kept(H5Pcreate(H5P_GROUP_CREATE), H5Pclose, "group properties");
  demand(H5Pset_link_creation_order(kept.id(), H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED), "order of groups");
  demand(H5Pset_obj_track_times(kept.id(), false), "times");
  for (std::size_t end = path.find('/'); !path.empty(); end = path.find('/', end + 1)) {
    const std::string part = path.substr(0, end);
    if (H5Lexists(file, part.c_str(), H5P_DEFAULT) <= 0) {
      const Handle group(H5Gcreate2(file, part.c_str(), H5P_DEFAULT, kept.id(), H5P_DEFAULT), H5Gclose,
                         "group " + part);
    }
    if (end == std::string::npos) {
      return;
    }
  }
}

void write_attribute(hid_t object, const std::string& name, const std::string& text) {
  const Handle type = text_type(), space = scalar_space();
  const Handle attribute(H5Acreate2(object, name.c_str(), type.id(), space.id(), H5P_DEFAULT, H5P_DEFAULT), H5Aclose,
                         "attribute " + name);
  const char* pointer = text.c_str();
  demand(H5Awrite(attribute.id(), type.id(), &pointer), "attribute " + name);
}

void write_fixed_attribute(hid_t object, const std::string& name, const std::string& text) {
  const Handle type(H5Tcopy(H5T_C_S1), H5Tclose, "text type"), space = scalar_space();
  demand(H5Tset_size(type.id(), text.size()), "text type");
  demand(H5Tset_strpad(type.id(), H5T_STR_NULLPAD), "text type");
  const Handle attribute(H5Acreate2(object, name.c_str(), type.id(), space.id(), H5P_DEFAULT, H5P_DEFAULT), H5Aclose,
                         "attribute " + name);
  demand(H5Awrite(attribute.id(), type.id(), text.data()), "attribute " + name);
}

void write_attribute(hid_t object, const std::string& name, int value) {
  const Handle space = scalar_space();
  const Handle attribute(H5Acreate2(object, name.c_str(), H5T_STD_I32LE, space.id(), H5P_DEFAULT, H5P_DEFAULT),
                         H5Aclose, "attribute " + name);
  demand(H5Awrite(attribute.id(), H5T_NATIVE_INT, &value), "attribute " + name);
}

void write_attribute(hid_t object, const std::string& name, const std::vector<std::string>& texts) {
  const Handle type = text_type(), space = space_of({texts.size()});
  const Handle attribute(H5Acreate2(object, name.c_str(), type.id(), space.id(), H5P_DEFAULT, H5P_DEFAULT), H5Aclose,
                         "attribute " + name);
  const auto list = pointers(texts);
  demand(H5Awrite(attribute.id(), type.id(), list.data()), "attribute " + name);
}

void write_numbers(hid_t file, const std::string& path, const std::vector<double>& values,
                   const std::vector<std::size_t>& shape) {
  const std::vector<hsize_t> lengths(shape.begin(), shape.end());
  const Handle space = space_of(lengths);
  const Handle dataset = make_dataset(file, path, H5T_IEEE_F64LE, space, lengths);
  if (!values.empty()) {
    demand(H5Dwrite(dataset.id(), H5T_NATIVE_DOUBLE, H5S_ALL, H5S_ALL, H5P_DEFAULT, values.data()), path);
  }
}

void write_texts(hid_t file, const std::string& path, const std::vector<std::string>& texts,
                 const std::vector<std::size_t>& shape) {
  const Handle type = text_type(), space = space_of({shape.begin(), shape.end()});
  const Handle dataset = make_dataset(file, path, type.id(), space, {});
  if (!texts.empty()) {
    const auto list = pointers(texts);
    demand(H5Dwrite(dataset.id(), type.id(), H5S_ALL, H5S_ALL, H5P_DEFAULT, list.data()), path);
  }
}

} // namespace wingnose::io::h5
