// Result files: sound HDF5 whose groups, shapes, types and attributes are not those of an answer must be read, told and
// printed, or be refused. The bytes of an input choose what is wrong where; the files have no checksum, as those of
// version 0.1.
#include "answers.hpp"
#include "target.hpp"

#include "../../src/cli/print.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/tree_file.hpp"
#include "wingnose/study/examples.hpp"
#include "wingnose/study/sweep.hpp"

#include <hdf5.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <limits>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace wingnose;
using quantity::Array;
using quantity::Tree;
namespace fs = std::filesystem;

const std::string& place() {
  const char* folder = fs::is_directory("/dev/shm") ? "/dev/shm" : "/tmp";
  static const std::string name = std::string(folder) + "/wingnose_fuzz_" + std::to_string(::getpid()) + ".h5";
  return name;
}

// Zeros when they have run out.
class Choices {
public:
  Choices(const std::uint8_t* data, std::size_t size) : data_(data), size_(size) {}
  std::size_t below(std::size_t n) { return n == 0 ? 0 : next() % n; }
  bool rarely() { return next() % 16 == 1; }

private:
  std::size_t next() { return at_ < size_ ? data_[at_++] : 0; }
  const std::uint8_t* data_;
  std::size_t size_, at_ = 0;
};

const std::vector<Tree>& trees() {
  static const std::vector<Tree> all = [] {
    std::vector<Tree> list = study::empty_answers();
    list.push_back(study::tell(io::read_case(WINGNOSE_SOURCE_DIR "/profiles/demo.toml"), answers::run()));
    for (quantity::Group& group : list.back().groups()) { // long lists take time and change nothing
      std::erase_if(group.arrays, [](const Array& a) { return a.size() > 500; });
    }
    return list;
  }();
  return all;
}

void put_attribute(hid_t object, const char* name, hid_t type, const std::vector<hsize_t>& shape, const void* value) {
  const hid_t space = shape.empty() ? H5Screate(H5S_SCALAR)
                                    : H5Screate_simple(static_cast<int>(shape.size()), shape.data(), nullptr),
              attribute = H5Acreate2(object, name, type, space, H5P_DEFAULT, H5P_DEFAULT);
  H5Awrite(attribute, type, value);
  H5Aclose(attribute);
  H5Sclose(space);
}

hid_t text_type(std::size_t length) {
  const hid_t type = H5Tcopy(H5T_C_S1);
  H5Tset_size(type, length == 0 ? H5T_VARIABLE : length);
  return type;
}

// A text, or now and then something else where a text should be.
void put_text(hid_t object, const char* name, const std::string& text, Choices& c) {
  if (c.rarely()) {
    const std::array<double, 3> numbers{-1.0, 1e300, std::numeric_limits<double>::quiet_NaN()};
    const std::array<hsize_t, 3> lengths{0, 1, 3};
    put_attribute(object, name, H5T_NATIVE_DOUBLE, {lengths[c.below(3)]}, numbers.data());
    return;
  }
  const std::array<std::string, 5> wrong{"", "\x1b[2J\n", std::string(5000, 'x'), "\xff\xfe", "../../etc"};
  const std::string& told = c.rarely() ? wrong[c.below(wrong.size())] : text;
  const bool fixed = c.rarely() && !told.empty();
  const hid_t type = text_type(fixed ? told.size() : 0);
  const char* pointer = told.c_str();
  put_attribute(object, name, type, {}, fixed ? static_cast<const void*>(pointer) : &pointer);
  H5Tclose(type);
}

void put_whole(hid_t object, const char* name, int value, Choices& c) {
  const std::array<int, 7> wrong{
      -1, 3, 7, 99, 1'000'000'000, std::numeric_limits<int>::max(), std::numeric_limits<int>::min()};
  if (c.rarely()) {
    put_text(object, name, "many", c);
    return;
  }
  const int told = c.rarely() ? wrong[c.below(wrong.size())] : value;
  put_attribute(object, name, H5T_NATIVE_INT, {}, &told);
}

void put_dims(hid_t object, std::vector<std::string> dims, Choices& c) {
  if (c.rarely()) {
    dims.resize(c.below(5), c.below(2) == 0 ? "case" : "station_mm");
  }
  std::vector<const char*> list;
  for (const std::string& dim : dims) {
    list.push_back(dim.c_str());
  }
  const hid_t type = text_type(0);
  if (!list.empty()) {
    put_attribute(object, "dims", type, {list.size()}, list.data());
  }
  H5Tclose(type);
}

// A type that is not that of the array, for which HDF5 may or may not know a way to numbers.
hid_t other_type(Choices& c) {
  switch (c.below(7)) {
  case 0:
    return H5Tcopy(H5T_STD_I8LE);
  case 1:
    return H5Tcopy(H5T_IEEE_F32BE);
  case 2:
    return text_type(0);
  case 3:
    return text_type(1 + c.below(9));
  case 4: {
    const hid_t made = H5Tcreate(H5T_COMPOUND, 16);
    H5Tinsert(made, "a", 0, H5T_NATIVE_DOUBLE);
    return made;
  }
  case 5:
    return H5Tvlen_create(H5T_NATIVE_DOUBLE);
  default:
    return H5Tcreate(H5T_OPAQUE, 3);
  }
}

std::vector<hsize_t> shape_of(const Array& a, Choices& c) {
  if (!c.rarely()) {
    return {a.shape.begin(), a.shape.end()};
  }
  std::vector<hsize_t> shape(c.below(4));
  for (hsize_t& length : shape) {
    length = c.rarely() ? hsize_t{1} << (20 + c.below(40)) : c.below(6);
  }
  return shape;
}

// A few arrays of each answer: all of them would take twenty milliseconds.
void put_array(hid_t file, const std::string& path, const Array& a, Choices& c) {
  if (c.below(8) != 7) {
    return;
  }
  const bool other = c.rarely();
  const hid_t type = other ? other_type(c) : a.is_text ? text_type(0) : H5Tcopy(H5T_NATIVE_DOUBLE);
  const std::vector<hsize_t> shape = shape_of(a, c);
  const hid_t space = shape.empty() ? H5Screate(H5S_SCALAR)
                                    : H5Screate_simple(static_cast<int>(shape.size()), shape.data(), nullptr),
              layout = H5Pcreate(H5P_DATASET_CREATE);
  if (!shape.empty() && c.rarely()) {
    const std::vector<hsize_t> chunk(shape.size(), 1 + c.below(4));
    H5Pset_chunk(layout, static_cast<int>(chunk.size()), chunk.data());
  } else if (c.rarely()) {
    H5Pset_external(layout, "/dev/zero", 0, H5F_UNLIMITED);
  }
  const hid_t set = H5Dcreate2(file, path.c_str(), type, space, H5P_DEFAULT, layout, H5P_DEFAULT);
  const bool as_told = shape == std::vector<hsize_t>(a.shape.begin(), a.shape.end()) && !other;
  if (set >= 0 && as_told && a.size() > 0) {
    std::vector<const char*> texts;
    for (const std::string& text : a.texts) {
      texts.push_back(text.c_str());
    }
    H5Dwrite(set, type, H5S_ALL, H5S_ALL, H5P_DEFAULT,
             a.is_text ? static_cast<const void*>(texts.data()) : a.numbers.data());
  }
  if (set >= 0) {
    put_whole(set, "detail", static_cast<int>(a.detail), c);
    put_whole(set, "decimals", a.decimals, c);
    put_text(set, "label", a.label, c);
    put_text(set, "unit", a.unit, c);
    put_dims(set, a.dims, c);
    H5Dclose(set);
  }
  H5Pclose(layout);
  H5Sclose(space);
  H5Tclose(type);
}

void make_groups(hid_t file, const std::string& path) {
  for (std::size_t end = path.find('/'); !path.empty(); end = path.find('/', end + 1)) {
    if (H5Lexists(file, path.substr(0, end).c_str(), H5P_DEFAULT) <= 0) {
      H5Gclose(H5Gcreate2(file, path.substr(0, end).c_str(), H5P_DEFAULT, H5P_DEFAULT, H5P_DEFAULT));
    }
    if (end == std::string::npos) {
      return;
    }
  }
}

void write(const Tree& tree, Choices& c) {
  const hid_t file = H5Fcreate(place().c_str(), H5F_ACC_TRUNC, H5P_DEFAULT, H5P_DEFAULT);
  const Tree& kind = c.rarely() ? trees()[c.below(trees().size())] : tree;
  put_text(file, "format", "wingnose " + kind.kind(), c);
  put_whole(file, "schema_version", 2, c);
  put_text(file, "version", "0.2.0", c);
  if (c.below(8) == 1) {
    put_whole(file, "cases_per_chunk", 4, c);
  }
  for (const quantity::Group& group : tree.groups()) {
    if (c.below(4) == 1) {
      continue;
    }
    make_groups(file, group.path);
    if (const hid_t made = group.path.empty() ? -1 : H5Gopen2(file, group.path.c_str(), H5P_DEFAULT); made >= 0) {
      put_whole(made, "layout", static_cast<int>(group.layout), c);
      put_text(made, "title", group.title, c);
      H5Gclose(made);
    }
    for (const Array& a : group.arrays) {
      put_array(file, group.path.empty() ? a.name : group.path + "/" + a.name, a, c);
    }
  }
  H5Fclose(file);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);
  Choices c(data, size);
  const Tree& tree = trees()[c.below(trees().size())];
  write(tree, c);
  fuzz::expect_answer([&] {
    // As the command line reads, and as Python does.
    const Tree read = io::read_tree(place(), c.below(2) == 0 ? quantity::Detail::told : quantity::Detail::stored);
    (void)quantity::findings_of(read);
    (void)io::json(read);
    std::ostringstream out;
    cli::print_stored(out, place(), read, read.kind() == "sweep" ? study::summary(read) : read);
  });
  fs::remove(place());
  return 0;
}
