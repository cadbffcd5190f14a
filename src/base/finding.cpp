#include "platewright/finding.hpp"

#include <algorithm>
#include <array>
#include <tuple>
#include <utility>

#include "base/quote.hpp"
#include "base/utf8.hpp"

namespace platewright {
namespace {

std::string_view name_of(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "error";
    case Severity::warning:
      return "warning";
    case Severity::note:
      return "note";
  }
  return "error";
}

// "file:line:column: ", as much of it as is known.
std::string place(const SourcePosition& at) {
  if (at.file.empty()) return {};
  std::string out = escaped(at.file);
  if (at.line > 0) out += ':' + std::to_string(at.line);
  if (at.line > 0 && at.column > 0) out += ':' + std::to_string(at.column);
  return out + ": ";
}

// A JSON string (RFC 8259, section 7); bytes that are not UTF-8 become U+FFFD.
std::string json_string(std::string_view text) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string out = "\"";
  for (std::size_t at = 0; at < text.size();) {
    const auto character = utf8_at(text, at);
    if (!character) {
      out += "\xef\xbf\xbd";
      ++at;
      continue;
    }
    const char32_t code = character->code;
    if (code == '"' || code == '\\') {
      out += '\\';
      out += static_cast<char>(code);
    } else if (code == '\n') {
      out += "\\n";
    } else if (is_control(code)) {
      out += "\\u00";
      out += digits[(code >> 4U) & 0xfU];
      out += digits[code & 0xfU];
    } else {
      out += text.substr(at, character->bytes);
    }
    at += character->bytes;
  }
  return out + '"';
}

std::string json_place(const SourcePosition& at) {
  return "\"file\": " + json_string(at.file) + ", \"line\": " + std::to_string(at.line) +
         ", \"column\": " + std::to_string(at.column);
}

auto order(const Finding& f) {
  return std::tie(f.at, f.code, f.severity, f.message, f.advice, f.notes);
}

}  // namespace

bool has_error(const Findings& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& f) { return f.severity == Severity::error; });
}

Findings sorted(Findings findings) {
  std::stable_sort(findings.begin(), findings.end(),
                   [](const Finding& a, const Finding& b) { return order(a) < order(b); });
  findings.erase(std::unique(findings.begin(), findings.end()), findings.end());
  return findings;
}

std::string to_text(const Finding& finding) {
  std::string out = place(finding.at);
  out += name_of(finding.severity);
  out += '[' + finding.code + "]: " + escaped(finding.message);
  if (!finding.advice.empty()) out += "; " + escaped(finding.advice);
  for (const FindingNote& note : finding.notes)
    out += "\n  " + place(note.at) + "note: " + escaped(note.message);
  return out;
}

std::string to_json(const Findings& findings) {
  std::string out = "[";
  for (std::size_t i = 0; i < findings.size(); ++i) {
    const Finding& f = findings[i];
    out += i == 0 ? "\n" : ",\n";
    out += "  {\"severity\": " + json_string(name_of(f.severity)) +
           ", \"code\": " + json_string(f.code) + ", " + json_place(f.at) +
           ", \"message\": " + json_string(f.message) + ", \"advice\": " + json_string(f.advice) +
           ", \"notes\": [";
    for (std::size_t n = 0; n < f.notes.size(); ++n) {
      if (n > 0) out += ", ";
      out += '{' + json_place(f.notes[n].at);
      out += ", \"message\": " + json_string(f.notes[n].message) + '}';
    }
    out += "]}";
  }
  return out + (findings.empty() ? "]\n" : "\n]\n");
}

Finding error(std::string code, SourcePosition at, std::string message, std::string advice) {
  return {Severity::error,   std::move(code), std::move(message),
          std::move(advice), std::move(at),   {}};
}

Finding warning(std::string code, SourcePosition at, std::string message, std::string advice) {
  return {Severity::warning, std::move(code), std::move(message),
          std::move(advice), std::move(at),   {}};
}

}  // namespace platewright
