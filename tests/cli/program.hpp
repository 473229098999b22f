// The real program, run as a user runs it: a folder of its own, exit code and both streams.
#pragma once

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace program {

struct Folder {
  std::filesystem::path path = std::filesystem::temp_directory_path() / ("wingnose_cli_" + std::to_string(::getpid()));
  Folder() { std::filesystem::create_directories(path); }
  Folder(const Folder&) = delete;
  Folder(Folder&&) = delete;
  Folder& operator=(const Folder&) = delete;
  Folder& operator=(Folder&&) = delete;
  ~Folder() { std::filesystem::remove_all(path); }
  [[nodiscard]] std::string file(const std::string& name) const { return (path / name).string(); }
};

inline std::string content(const std::filesystem::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

// How often, or how many: fewer under the sanitizers, for whom it is the same code many times over.
constexpr int times(int usual) {
#if defined(WINGNOSE_SANITIZED)
  return usual / 4 + 1;
#else
  return usual;
#endif
}

struct Outcome {
  int code;
  std::string out, err;
};
inline Outcome run(const Folder& folder, const std::string& arguments) {
  const std::string out = folder.file("out"), err = folder.file("err");
  const std::string command = std::string(WINGNOSE_PROGRAM) + " " + arguments + " >" + out + " 2>" + err;
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, content(out), content(err)};
}

// Runs beside the test, its streams in the files "out" and "err" of the folder.
inline pid_t start(const Folder& folder, std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), WINGNOSE_PROGRAM);
  const std::string out = folder.file("out"), err = folder.file("err");
  std::vector<char*> list;
  list.reserve(arguments.size() + 1);
  for (std::string& argument : arguments) {
    list.push_back(argument.data());
  }
  list.push_back(nullptr);
  const pid_t child = ::fork();
  if (child == 0) {
    ::dup2(::open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), STDOUT_FILENO);
    ::dup2(::open(err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), STDERR_FILENO);
    ::execv(WINGNOSE_PROGRAM, list.data());
    ::_exit(99);
  }
  return child;
}
// Exit code, or minus the number of the signal.
inline int wait_for(pid_t child) {
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

inline std::string profile(const std::string& name) { return WINGNOSE_SOURCE_DIR "/profiles/" + name; }

inline bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

} // namespace program
