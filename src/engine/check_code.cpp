#include "engine/check_code.hpp"

#include <cmath>
#include <cstdint>
#include <string_view>

namespace platewright {
namespace {

// FNV-1a, 64 bits (Fowler, Noll, Vo; RFC 9923): any change of the input changes the code.
class Hash {
 public:
  void add(std::string_view text) {
    for (const char c : text) byte(static_cast<unsigned char>(c));
    byte(0xff);
  }
  void add(double mm) {
    auto v = static_cast<std::uint64_t>(std::llround(mm * 100));
    for (int i = 0; i < 8; ++i) {
      byte(static_cast<unsigned char>(v & 0xff));
      v >>= 8;
    }
  }
  std::uint64_t value() const { return value_; }

 private:
  void byte(unsigned char b) {
    value_ ^= b;
    value_ *= 0x100000001b3ULL;
  }
  std::uint64_t value_ = 0xcbf29ce484222325ULL;
};

std::string code_of(std::uint64_t v) {
  constexpr std::string_view letters = "BCDFGHJKLMNPQRSTVWXZ23456789";
  std::string code;
  for (int i = 0; i < 6; ++i) {
    code += letters[v % letters.size()];
    v /= letters.size();
  }
  return code;
}

}  // namespace

std::string check_code(const Layout& layout, const std::string& set, const std::string& figure) {
  Hash hash;
  hash.add(set);
  hash.add(figure);
  hash.add(layout.paper.width.mm());
  hash.add(layout.paper.height.mm());
  for (const PlacedLabel& label : layout.labels) {
    hash.add(label.anchor);
    hash.add(label.text);
    hash.add(label.port.x);
    hash.add(label.port.y);
    for (const PagePoint& target : label.targets) {
      hash.add(target.x);
      hash.add(target.y);
    }
  }
  return code_of(hash.value());
}

std::string check_code(std::string_view kind, std::uint64_t seed, const std::string& set,
                       const std::vector<compose::StudyTerm>& terms, const std::string& figure) {
  Hash hash;
  hash.add(kind);
  hash.add(std::to_string(seed));
  hash.add(set);
  hash.add(figure);
  for (const compose::StudyTerm& term : terms)
    for (const std::string* part : {&term.anchor, &term.text, &term.clue, &term.group})
      hash.add(*part);
  return code_of(hash.value());
}

}  // namespace platewright
