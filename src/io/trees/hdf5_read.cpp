#include "hdf5_handle.hpp"

#include <algorithm>
#include <functional>

namespace wingnose::io::h5 {

namespace {

Handle type_of(const Handle& dataset) { return {H5Dget_type(dataset.id()), H5Tclose, "type of a dataset"}; }

// Texts of fixed or variable length, as any writer may have made them.
std::vector<std::string> texts_from(hid_t type, std::size_t count, const std::function<herr_t(hid_t, void*)>& fill,
                                    const Handle& space) {
  std::vector<std::string> texts;
  if (count == 0) {
    return texts;
  }
  if (H5Tis_variable_str(type) > 0) {
    std::vector<char*> list(count, nullptr);
    if (fill(type, list.data()) < 0) {
      throw ComputeError("HDF5 refused: reading text");
    }
    for (const char* each : list) {
      texts.emplace_back(each == nullptr ? "" : each);
    }
    H5Dvlen_reclaim(type, space.id(), H5P_DEFAULT, list.data());
    return texts;
  }
  const std::size_t length = H5Tget_size(type);
  std::string buffer(count * length, '\0');
  if (fill(type, buffer.data()) < 0) {
    throw ComputeError("HDF5 refused: reading text");
  }
  for (std::size_t i = 0; i < count; ++i) {
    const std::string cell = buffer.substr(i * length, length);
    texts.push_back(cell.substr(0, cell.find('\0')));
  }
  return texts;
}

// Throws where a dataset claims more than it can hold: a file of some bytes must not ask for all memory.
void check_claim(const Handle& dataset, std::size_t count, std::size_t size) {
  constexpr std::size_t best_packing = 1100, small = std::size_t{1} << 20U; // deflate packs 1032 to 1 at best
  const auto stored = static_cast<std::size_t>(H5Dget_storage_size(dataset.id()));
  if (count > 0 && size > 0 && count > (stored * best_packing + small) / size) {
    throw ComputeError("a dataset claims more values than it can hold");
  }
}

std::size_t elements(const Handle& space) {
  const auto count = H5Sget_simple_extent_npoints(space.id());
  return count < 0 ? 0 : static_cast<std::size_t>(count);
}

extern "C" herr_t wingnose_collect_path(hid_t, const char* name, const H5O_info_t* info, void* list) {
  if (std::string_view(name) != ".") {
    static_cast<std::vector<std::string>*>(list)->push_back(std::string(name) +
                                                            (info->type == H5O_TYPE_GROUP ? "/" : ""));
  }
  return 0;
}

extern "C" herr_t wingnose_collect_attribute(hid_t, const char* name, const H5A_info_t*, void* list) {
  static_cast<std::vector<std::string>*>(list)->emplace_back(name);
  return 0;
}

} // namespace

Handle open(const std::string& file) {
  return {H5Fopen(file.c_str(), H5F_ACC_RDONLY, H5P_DEFAULT), H5Fclose, "opening " + file};
}

bool has_attribute(hid_t object, const std::string& name) { return H5Aexists(object, name.c_str()) > 0; }

std::string read_text_attribute(hid_t object, const std::string& name) {
  const Handle attribute(H5Aopen(object, name.c_str(), H5P_DEFAULT), H5Aclose, "attribute " + name);
  const Handle type(H5Aget_type(attribute.id()), H5Tclose, "type of " + name);
  const Handle space(H5Aget_space(attribute.id()), H5Sclose, "space of " + name);
  if (H5Tget_class(type.id()) != H5T_STRING || elements(space) != 1) {
    return "";
  }
  const auto fill = [&attribute](hid_t t, void* target) { return H5Aread(attribute.id(), t, target); };
  return texts_from(type.id(), 1, fill, space).front();
}

std::vector<std::string> read_texts_attribute(hid_t object, const std::string& name) {
  const Handle attribute(H5Aopen(object, name.c_str(), H5P_DEFAULT), H5Aclose, "attribute " + name);
  const Handle type(H5Aget_type(attribute.id()), H5Tclose, "type of " + name);
  const Handle space(H5Aget_space(attribute.id()), H5Sclose, "space of " + name);
  const auto fill = [&attribute](hid_t t, void* target) { return H5Aread(attribute.id(), t, target); };
  return H5Tget_class(type.id()) == H5T_STRING ? texts_from(type.id(), elements(space), fill, space)
                                               : std::vector<std::string>{};
}

int read_int_attribute(hid_t object, const std::string& name) {
  const Handle attribute(H5Aopen(object, name.c_str(), H5P_DEFAULT), H5Aclose, "attribute " + name);
  const Handle space(H5Aget_space(attribute.id()), H5Sclose, "space of " + name);
  if (elements(space) != 1) { // a list would be read over what stands behind the number
    throw ComputeError("attribute " + name + " is not one number");
  }
  int value = 0;
  if (H5Aread(attribute.id(), H5T_NATIVE_INT, &value) < 0) {
    throw ComputeError("HDF5 refused: attribute " + name);
  }
  return value;
}

std::vector<std::string> attribute_names(hid_t object) {
  std::vector<std::string> names;
  H5Aiterate2(object, H5_INDEX_NAME, H5_ITER_INC, nullptr, wingnose_collect_attribute, &names);
  return names;
}

std::vector<std::string> paths(hid_t file) {
  std::vector<std::string> list;
  if (H5Ovisit(file, H5_INDEX_CRT_ORDER, H5_ITER_INC, wingnose_collect_path, &list) < 0) {
    list.clear(); // a file of another writer, or of version 0.1
    if (H5Ovisit(file, H5_INDEX_NAME, H5_ITER_INC, wingnose_collect_path, &list) < 0) {
      throw ComputeError("HDF5 refused: listing the datasets");
    }
  }
  return list;
}

Handle open_dataset(hid_t file, const std::string& path) {
  Handle dataset(H5Dopen2(file, path.c_str(), H5P_DEFAULT), H5Dclose, "dataset " + path);
  const Handle made(H5Dget_create_plist(dataset.id()), H5Pclose, "properties of " + path);
  if (H5Pget_layout(made.id()) == H5D_VIRTUAL || H5Pget_external_count(made.id()) > 0) {
    throw ComputeError(path + " lies in another file"); // which nobody has named
  }
  return dataset;
}

bool is_text(const Handle& dataset) { return H5Tget_class(type_of(dataset).id()) == H5T_STRING; }

std::vector<std::size_t> shape(const Handle& dataset) {
  const Handle space(H5Dget_space(dataset.id()), H5Sclose, "space of a dataset");
  const int rank = std::max(0, H5Sget_simple_extent_ndims(space.id()));
  std::vector<hsize_t> extent(static_cast<std::size_t>(rank));
  if (rank > 0) {
    H5Sget_simple_extent_dims(space.id(), extent.data(), nullptr);
  }
  constexpr hsize_t many = hsize_t{1} << 20U; // of rows without columns: whoever walks over them would never end
  const bool empty = std::find(extent.begin(), extent.end(), hsize_t{0}) != extent.end();
  if (empty && std::any_of(extent.begin(), extent.end(), [](hsize_t length) { return length > many; })) {
    throw ComputeError("a dataset without values claims to be long");
  }
  double count = 1.0; // in whole numbers the product may begin at zero again
  for (const hsize_t length : extent) {
    count *= static_cast<double>(length);
  }
  if (count > 1e15) {
    throw ComputeError("a dataset claims more values than it can hold");
  }
  return {extent.begin(), extent.end()};
}

std::vector<double> read_numbers(const Handle& dataset) {
  const Handle space(H5Dget_space(dataset.id()), H5Sclose, "space of a dataset");
  check_claim(dataset, elements(space), H5Tget_size(type_of(dataset).id()));
  std::vector<double> values(elements(space));
  if (!values.empty() && H5Dread(dataset.id(), H5T_NATIVE_DOUBLE, H5S_ALL, H5S_ALL, H5P_DEFAULT, values.data()) < 0) {
    throw ComputeError("HDF5 refused: reading numbers");
  }
  return values;
}

std::vector<std::string> read_texts(const Handle& dataset) {
  const Handle space(H5Dget_space(dataset.id()), H5Sclose, "space of a dataset");
  const auto fill = [&dataset](hid_t t, void* target) {
    return H5Dread(dataset.id(), t, H5S_ALL, H5S_ALL, H5P_DEFAULT, target);
  };
  const Handle type = type_of(dataset);
  check_claim(dataset, elements(space), H5Tget_size(type.id()));
  return texts_from(type.id(), elements(space), fill, space);
}

} // namespace wingnose::io::h5
