// Long texts: one many times over, and one that is made only when it is asked for, as every
// test of a program would make all of them before it starts.
#pragma once

#include <concepts>
#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <utility>

namespace support {

inline std::string repeated(std::string_view text, std::size_t times) {
  std::string out;
  out.reserve(text.size() * times);
  for (std::size_t i = 0; i < times; ++i) out += text;
  return out;
}

class Late {
 public:
  template <std::convertible_to<std::string> Text>
  Late(Text text) : make_([whole = std::string(std::move(text))] { return whole; }) {}
  template <std::invocable Make>
  Late(Make make) : make_(std::move(make)) {}
  std::string text() const { return make_(); }

 private:
  std::function<std::string()> make_;
};

}  // namespace support
