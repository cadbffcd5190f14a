// What is wrong with an input or a request, where, and what to do.
//
// Printed as `file:line:column: error[code]: message; advice` with notes
// indented below. Messages are lower case without a full stop; codes are
// kebab-case and stable.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace platewright {

// line and column count from 1; 0 means unknown. A request's own fault has the
// option's name in `file` ("--paper").
struct SourcePosition {
  std::string file;
  int line = 0;
  int column = 0;
  friend auto operator<=>(const SourcePosition&, const SourcePosition&) = default;
};

enum class Severity { error, warning, note };

struct FindingNote {
  SourcePosition at;
  std::string message;
  friend auto operator<=>(const FindingNote&, const FindingNote&) = default;
};

struct Finding {
  Severity severity = Severity::error;
  std::string code;     // "anchor-duplicate"
  std::string message;  // "anchor \"aorta\" is used twice"
  std::string advice;   // "rename one"; may be empty
  SourcePosition at;
  std::vector<FindingNote> notes;
  friend bool operator==(const Finding&, const Finding&) = default;
};

using Findings = std::vector<Finding>;

bool has_error(const Findings& findings);

// Sorted by file, line, column, then code; exact duplicates dropped.
Findings sorted(Findings findings);

// One finding as text, without a trailing newline.
std::string to_text(const Finding& finding);

// All of them as one JSON array (RFC 8259), for scripts.
std::string to_json(const Findings& findings);

Finding error(std::string code, SourcePosition at, std::string message, std::string advice = {});
Finding warning(std::string code, SourcePosition at, std::string message, std::string advice = {});

}  // namespace platewright
