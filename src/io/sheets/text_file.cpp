// The one place where files that people write are opened.
#include "wingnose/io/case_file.hpp"

#include "wingnose/words/error.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <system_error>

namespace wingnose::io {
namespace {

namespace fs = std::filesystem;

// Closes itself. Without waiting: nobody may ever write into a pipe.
class Opened {
public:
  explicit Opened(const fs::path& file) : id_(::open(file.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY)) {}
  Opened(const Opened&) = delete;
  Opened(Opened&&) = delete;
  Opened& operator=(const Opened&) = delete;
  Opened& operator=(Opened&&) = delete;
  ~Opened() {
    if (id_ >= 0) {
      (void)::close(id_);
    }
  }
  [[nodiscard]] int id() const { return id_; }

private:
  int id_;
};

std::string megabytes(std::size_t bytes) { return std::to_string(bytes / 1'000'000) + " MB"; }

} // namespace

std::string read_text(const fs::path& file, const std::string& where) {
  const std::string prefix = where.empty() ? "" : where + ": ";
  const std::string name = file.generic_string();
  std::error_code ignored;
  if (!fs::exists(file, ignored)) {
    throw InputError(prefix + "file \"" + name +
                     "\" does not exist; check the spelling and the folder (relative names are taken from the folder "
                     "of the file that names them)");
  }
  if (fs::is_directory(file, ignored)) {
    throw InputError(prefix + "\"" + name + "\" is a folder; name a file");
  }
  if (!fs::is_regular_file(file, ignored)) { // before it is opened: opening alone makes some devices act
    throw InputError(prefix + "\"" + name + "\" is a device, a pipe or a socket; name a regular file");
  }
  const Opened opened(file);
  struct stat status {};
  const bool open = opened.id() >= 0 && ::fstat(opened.id(), &status) == 0;
  const int error = errno;
  const bool regular = open && S_ISREG(status.st_mode);
  std::string text;
  text.resize(regular ? std::min(static_cast<std::size_t>(status.st_size), largest_text) + 1 : 0);
  std::size_t length = 0;
  bool sound = regular;
  while (sound && length <= largest_text) {
    if (length == text.size()) {
      text.resize(std::min(2 * text.size(), largest_text + 1)); // a file that grows, or one that tells no size
    }
    const ssize_t n = ::read(opened.id(), text.data() + length, text.size() - length);
    if (n == 0) {
      break;
    }
    sound = n > 0 || errno == EINTR;
    length += n > 0 ? static_cast<std::size_t>(n) : 0;
  }
  if (sound && length > largest_text) {
    throw InputError(prefix + "file \"" + name + "\" is larger than " + megabytes(largest_text) +
                     ", the most that is read; give fewer rows");
  }
  if (!sound || length == 0) {
    throw InputError(prefix + "file \"" + name + "\" cannot be read or is empty" +
                     (open ? "" : " (" + std::generic_category().message(error) + ")") +
                     "; check its content and its permissions");
  }
  text.resize(length);
  return text;
}

} // namespace wingnose::io
