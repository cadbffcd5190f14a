#include "base/random.hpp"

namespace platewright {

Random::Random(std::uint64_t seed, std::string_view purpose) : state_(seed) {
  // FNV-1a, 64 bits, of the purpose (Fowler, Noll, Vo; RFC 9923).
  std::uint64_t hash = 0xcbf29ce484222325ULL;
  for (const char c : purpose) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3ULL;
  }
  state_ ^= hash;
}

}  // namespace platewright
