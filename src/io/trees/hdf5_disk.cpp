#include "hdf5_disk.hpp"

#if H5_VERSION_GE(1, 13, 0)
#include <H5FDdevelop.h>
#endif

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <map>
#include <memory>
#include <system_error>
#include <vector>

namespace wingnose::io::h5 {
namespace {

struct Disk {
  H5FD_t base{}; // first: the library knows a file by it
  int descriptor = -1;
  haddr_t end_of_addresses = 0, end_of_file = 0;
  DiskFault* fault = nullptr;
  // What the library knows the file by and may read again, where the disk did not take it. Numbers and texts are never
  // read while a file is made.
  std::map<haddr_t, std::vector<char>> not_taken;
};

Disk& of(H5FD_t* file) { return *reinterpret_cast<Disk*>(file); }
const Disk& of(const H5FD_t* file) { return *reinterpret_cast<const Disk*>(file); }

void keep(Disk& disk, int error) {
  if (disk.fault != nullptr && disk.fault->error == 0) {
    disk.fault->error = error;
  }
}

// errno, or 0 when all was written.
int write_all(int descriptor, haddr_t at, const char* bytes, std::size_t size) {
  while (size > 0) {
    const ssize_t written = ::pwrite(descriptor, bytes, size, static_cast<off_t>(at));
    if (written < 0 && errno == EINTR) {
      continue;
    }
    if (written <= 0) {
      return written < 0 ? errno : ENOSPC;
    }
    bytes += written;
    at += static_cast<haddr_t>(written);
    size -= static_cast<std::size_t>(written);
  }
  return 0;
}

H5FD_t* open_disk(const char* name, unsigned flags, hid_t access, haddr_t) {
  const auto* fault = static_cast<DiskFault* const*>(H5Pget_driver_info(access));
  const int how = O_CLOEXEC | ((flags & H5F_ACC_RDWR) != 0 ? O_RDWR : O_RDONLY) |
                  ((flags & H5F_ACC_CREAT) != 0 ? O_CREAT : 0) | ((flags & H5F_ACC_EXCL) != 0 ? O_EXCL : 0) |
                  ((flags & H5F_ACC_TRUNC) != 0 ? O_TRUNC : 0);
  const int descriptor = ::open(name, how, 0666);
  struct stat status {};
  if (descriptor < 0 || ::fstat(descriptor, &status) != 0) {
    if ((flags & H5F_ACC_CREAT) != 0 && fault != nullptr && (*fault)->error == 0) {
      (*fault)->error = errno;
    }
    return nullptr;
  }
  auto disk = std::make_unique<Disk>();
  disk->descriptor = descriptor;
  disk->end_of_file = static_cast<haddr_t>(status.st_size);
  disk->fault = fault == nullptr ? nullptr : *fault;
  return &disk.release()->base;
}

herr_t close_disk(H5FD_t* file) {
  const std::unique_ptr<Disk> disk(&of(file));
  if ((disk->fault == nullptr || disk->fault->error == 0) && ::fsync(disk->descriptor) != 0 && errno != EINVAL) {
    keep(*disk, errno); // EINVAL: a file system without it
  }
  if (::close(disk->descriptor) != 0) {
    keep(*disk, errno);
  }
  return 0;
}

int compare(const H5FD_t* a, const H5FD_t* b) {
  struct stat one {
  }, other{};
  (void)::fstat(of(a).descriptor, &one);
  (void)::fstat(of(b).descriptor, &other);
  const auto key = [](const struct stat& s) { return std::pair(s.st_dev, s.st_ino); };
  return key(one) < key(other) ? -1 : key(other) < key(one) ? 1 : 0;
}

// As the library's own driver, so that files have the same bytes.
herr_t query(const H5FD_t*, unsigned long* features) {
  if (features != nullptr) {
    *features = H5FD_FEAT_AGGREGATE_METADATA | H5FD_FEAT_ACCUMULATE_METADATA | H5FD_FEAT_DATA_SIEVE |
                H5FD_FEAT_AGGREGATE_SMALLDATA | H5FD_FEAT_DEFAULT_VFD_COMPATIBLE;
  }
  return 0;
}

haddr_t get_eoa(const H5FD_t* file, H5FD_mem_t) { return of(file).end_of_addresses; }
herr_t set_eoa(H5FD_t* file, H5FD_mem_t, haddr_t address) {
  of(file).end_of_addresses = address;
  return 0;
}
haddr_t get_eof(const H5FD_t* file, H5FD_mem_t) { return of(file).end_of_file; }

herr_t read_disk(H5FD_t* file, H5FD_mem_t, hid_t, haddr_t at, std::size_t size, void* buffer) {
  const Disk& disk = of(file);
  auto* bytes = static_cast<char*>(buffer);
  std::fill(bytes, bytes + size, '\0');
  for (std::size_t done = 0; done < size;) {
    const ssize_t n = ::pread(disk.descriptor, bytes + done, size - done, static_cast<off_t>(at + done));
    if (n < 0 && errno == EINTR) {
      continue;
    }
    if (n <= 0) {
      break; // behind the end: zeros
    }
    done += static_cast<std::size_t>(n);
  }
  for (const auto& [from, kept] : disk.not_taken) {
    const haddr_t begin = std::max(from, at), end = std::min(from + kept.size(), at + size);
    if (begin < end) {
      std::copy_n(kept.begin() + static_cast<std::ptrdiff_t>(begin - from), end - begin, bytes + (begin - at));
    }
  }
  return 0;
}

herr_t write_disk(H5FD_t* file, H5FD_mem_t type, hid_t, haddr_t at, std::size_t size, const void* buffer) {
  Disk& disk = of(file);
  const auto* bytes = static_cast<const char*>(buffer);
  if (disk.fault == nullptr || disk.fault->error == 0) {
    keep(disk, write_all(disk.descriptor, at, bytes, size));
  }
  if (disk.fault != nullptr && disk.fault->error != 0 && type != H5FD_MEM_DRAW) {
    disk.not_taken.insert_or_assign(at, std::vector<char>(bytes, bytes + size));
  }
  disk.end_of_file = std::max(disk.end_of_file, at + size);
  return 0;
}

herr_t truncate_disk(H5FD_t* file, hid_t, hbool_t) {
  Disk& disk = of(file);
  const bool sound = disk.fault == nullptr || disk.fault->error == 0;
  if (sound && disk.end_of_addresses != disk.end_of_file &&
      ::ftruncate(disk.descriptor, static_cast<off_t>(disk.end_of_addresses)) != 0) {
    keep(disk, errno);
  }
  disk.end_of_file = disk.end_of_addresses;
  return 0;
}

Handle driver() {
  H5FD_class_t c{};
#if H5_VERSION_GE(1, 13, 0)
  c.version = H5FD_CLASS_VERSION;
  c.value = static_cast<H5FD_class_value_t>(517); // of those free for private use
#endif
  c.name = "wingnose";
  c.maxaddr = (haddr_t{1} << 62U) - 1U;
  c.fc_degree = H5F_CLOSE_WEAK;
  c.fapl_size = sizeof(DiskFault*);
  c.open = open_disk;
  c.close = close_disk;
  c.cmp = compare;
  c.query = query;
  c.get_eoa = get_eoa;
  c.set_eoa = set_eoa;
  c.get_eof = get_eof;
  c.read = read_disk;
  c.write = write_disk;
  c.truncate = truncate_disk;
  constexpr std::array<H5FD_mem_t, H5FD_MEM_NTYPES> map H5FD_FLMAP_DICHOTOMY;
  std::copy(map.begin(), map.end(), c.fl_map);
  return {H5FDregister(&c), H5FDunregister, "the driver of files"};
}

} // namespace

std::string disk_words(int error) {
  const bool full = error == ENOSPC || error == EFBIG || error == EDQUOT;
  return std::generic_category().message(error) +
         (full ? "; free some space or choose another disk" : "; check the disk and choose another if in doubt");
}

void DiskFault::check() const {
  if (error != 0) {
    throw ComputeError(disk_words(error));
  }
}

Handle create(const std::string& file, DiskFault& fault) {
  const Handle kept(H5Pcreate(H5P_FILE_CREATE), H5Pclose, "file properties");
  demand(H5Pset_link_creation_order(kept.id(), H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED), "order of groups");
  const Handle access(H5Pcreate(H5P_FILE_ACCESS), H5Pclose, "file access");
  const Handle ours = driver(); // the file keeps it as long as it is open
  const DiskFault* const pointer = &fault;
  demand(H5Pset_driver(access.id(), ours.id(), &pointer), "the driver of files");
  const hid_t id = H5Fcreate(file.c_str(), H5F_ACC_EXCL, kept.id(), access.id());
  if (id < 0) {
    fault.check();
  }
  return {id, H5Fclose, "creating " + file};
}

} // namespace wingnose::io::h5
