// A program run as a process of its own, within limits of time and memory.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace support {

struct Limits {
  double seconds = 120;           // then it is killed
  unsigned long long memory = 0;  // bytes of address space; 0: no limit
  std::string folder;             // to run in; empty: this process's own
  std::vector<std::pair<std::string, std::string>> environment;  // set on top of this process's
};

struct Finished {
  int code = -1;          // exit code; -1 when a signal ended it
  int signal = 0;
  bool timed_out = false;
  std::string out;
  std::string err;
  double seconds = 0;     // wall
  double processor_seconds = 0;  // of all its threads: the same on a busy machine
  long peak_kib = 0;      // resident
  // "exit 1, stderr: ..." for a failed test's message.
  std::string said() const;
};

Finished run(const std::vector<std::string>& command, const Limits& limits = {});

// The program under test.
Finished platewright(std::vector<std::string> arguments, const Limits& limits = {});
std::string program();

// First file of this name on PATH, or nothing.
std::string tool(const std::string& name);

// Built with a sanitizer: memory limits do not work, and all is slower.
bool sanitized();

}  // namespace support
