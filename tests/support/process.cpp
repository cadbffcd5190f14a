#include "support/process.hpp"

#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <filesystem>
#include <stdexcept>
#include <thread>

#include "support/scratch.hpp"

namespace support {
namespace {

using Clock = std::chrono::steady_clock;

void redirect(const std::string& file, int to) {
  const int from = ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
  if (from < 0 || ::dup2(from, to) < 0) ::_exit(126);
}

[[noreturn]] void become(const std::vector<std::string>& command, const Limits& limits,
                         const std::string& out, const std::string& err) {
  ::setpgid(0, 0);
  redirect(out, STDOUT_FILENO);
  redirect(err, STDERR_FILENO);
  const int nothing = ::open("/dev/null", O_RDONLY | O_CLOEXEC);
  if (nothing < 0 || ::dup2(nothing, STDIN_FILENO) < 0) ::_exit(126);
  if (!limits.folder.empty() && ::chdir(limits.folder.c_str()) != 0) ::_exit(126);
  for (const auto& [name, value] : limits.environment) ::setenv(name.c_str(), value.c_str(), 1);
  if (limits.memory != 0) {
    const rlimit most{limits.memory, limits.memory};
    if (::setrlimit(RLIMIT_AS, &most) != 0) ::_exit(126);
  }
  const rlimit no_core{0, 0};
  ::setrlimit(RLIMIT_CORE, &no_core);
  std::vector<char*> argv;
  for (const std::string& word : command) argv.push_back(const_cast<char*>(word.c_str()));
  argv.push_back(nullptr);
  ::execvp(argv[0], argv.data());
  ::_exit(127);
}

}  // namespace

std::string Finished::said() const {
  std::string text = timed_out ? "timed out" : signal != 0 ? "signal " + std::to_string(signal)
                                                           : "exit " + std::to_string(code);
  text += ", out: " + out.substr(0, 2000) + "\nerr: " + err.substr(0, 4000);
  return text;
}

Finished run(const std::vector<std::string>& command, const Limits& limits) {
  const Scratch scratch;
  const std::string out = scratch / "out", err = scratch / "err";
  const Clock::time_point start = Clock::now();
  const pid_t child = ::fork();
  if (child < 0) throw std::runtime_error("no process for " + command.front());
  if (child == 0) become(command, limits, out, err);
  ::setpgid(child, child);
  Finished done;
  int status = 0;
  rusage used{};
  for (;;) {
    const pid_t ended = ::wait4(child, &status, WNOHANG, &used);
    done.seconds = std::chrono::duration<double>(Clock::now() - start).count();
    if (ended == child) break;
    if (ended < 0 && errno != EINTR) throw std::runtime_error("lost " + command.front());
    if (!done.timed_out && done.seconds > limits.seconds) {
      done.timed_out = true;
      ::kill(-child, SIGKILL);
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(2));
  }
  // What it may have left running goes with it.
  ::kill(-child, SIGKILL);
  done.peak_kib = used.ru_maxrss;
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  done.processor_seconds = seconds(used.ru_utime) + seconds(used.ru_stime);
  if (WIFEXITED(status)) done.code = WEXITSTATUS(status);
  if (WIFSIGNALED(status)) done.signal = WTERMSIG(status);
  if (std::filesystem::exists(out)) done.out = bytes_of(out);
  if (std::filesystem::exists(err)) done.err = bytes_of(err);
  return done;
}

std::string program() { return PW_PROGRAM; }

Finished platewright(std::vector<std::string> arguments, const Limits& limits) {
  arguments.insert(arguments.begin(), program());
  return run(arguments, limits);
}

std::string tool(const std::string& name) {
  const char* path = ::getenv("PATH");
  std::string folders = path != nullptr ? path : "/usr/bin:/bin";
  while (!folders.empty()) {
    const std::size_t colon = folders.find(':');
    const std::string file = folders.substr(0, colon) + "/" + name;
    folders = colon == std::string::npos ? std::string() : folders.substr(colon + 1);
    if (::access(file.c_str(), X_OK) == 0) return file;
  }
  return {};
}

bool sanitized() {
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_UNDEFINED__)
  return true;
#else
  return false;
#endif
}

}  // namespace support
