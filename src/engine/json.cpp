#include "engine/json.hpp"

#include <charconv>
#include <cmath>

#include "base/number.hpp"

namespace platewright {

void JsonWriter::separate() {
  if (after_key_) {
    after_key_ = false;
    return;
  }
  if (!first_) out_ += ',';
  first_ = false;
}

JsonWriter& JsonWriter::open(char first, char last) {
  separate();
  out_ += first;
  closers_ += last;
  first_ = true;
  return *this;
}

JsonWriter& JsonWriter::end() {
  out_ += closers_.back();
  closers_.pop_back();
  first_ = false;
  return *this;
}

JsonWriter& JsonWriter::key(std::string_view name) {
  string(name);
  out_ += ':';
  after_key_ = true;
  return *this;
}

JsonWriter& JsonWriter::string(std::string_view value) {
  separate();
  constexpr char hex[] = "0123456789abcdef";
  out_ += '"';
  for (const char c : value) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out_ += '\\';
      out_ += c;
    } else if (byte < 0x20) {
      out_ += "\\u00";
      out_ += hex[byte >> 4];
      out_ += hex[byte & 15];
    } else {
      out_ += c;
    }
  }
  out_ += '"';
  return *this;
}

JsonWriter& JsonWriter::number(double value, int decimals) {
  separate();
  out_ += std::isfinite(value) ? format_number(value, decimals) : "null";
  return *this;
}

JsonWriter& JsonWriter::exact(double value) {
  if (!std::isfinite(value)) return number(value);
  separate();
  char digits[32];
  const auto end = std::to_chars(digits, digits + sizeof digits, value);
  out_.append(digits, end.ptr);
  return *this;
}

JsonWriter& JsonWriter::boolean(bool value) {
  separate();
  out_ += value ? "true" : "false";
  return *this;
}

}  // namespace platewright
