// Tests of very many instances look at all of them where they are optimised, and at a share
// where sanitizers slow them down: what those find takes no thousands.
#pragma once

#include <vector>

namespace support {

#ifndef PW_SHARE
#define PW_SHARE 1
#endif
inline constexpr int share = PW_SHARE;

// Of so many, at least one.
constexpr int instances(int all) { return (all + share - 1) / share; }

// All of them, or the first.
template <class T>
std::vector<T> first_of(std::vector<T> all) {
  if (share > 1) all.erase(all.begin() + 1, all.end());
  return all;
}

// What is expected of all instances `least` times or more; of a share half as often, as chance has
// it.
constexpr int at_least(int least) { return share == 1 ? least : least / (2 * share); }

}  // namespace support
