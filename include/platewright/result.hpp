// A value, or the findings that say why there is none; warnings travel along
// with a value.
#pragma once

#include <cassert>
#include <optional>
#include <utility>

#include "platewright/finding.hpp"

namespace platewright {

template <class T>
class Result {
 public:
  Result(T value, Findings warnings = {})  // NOLINT(google-explicit-constructor)
      : value_(std::move(value)), findings_(std::move(warnings)) {}
  Result(Findings errors) : findings_(std::move(errors)) {  // NOLINT(google-explicit-constructor)
    assert(has_error(findings_));
  }
  Result(Finding error) : findings_{std::move(error)} {  // NOLINT(google-explicit-constructor)
    assert(has_error(findings_));
  }

  bool ok() const { return value_.has_value(); }
  explicit operator bool() const { return ok(); }
  // Only when ok().
  const T& value() const& { return *value_; }
  T& value() & { return *value_; }
  T&& value() && { return std::move(*value_); }
  const T& operator*() const& { return *value_; }
  T& operator*() & { return *value_; }
  const T* operator->() const { return &*value_; }
  T* operator->() { return &*value_; }

  // Errors when not ok(); warnings otherwise.
  const Findings& findings() const { return findings_; }

 private:
  std::optional<T> value_;
  Findings findings_;
};

}  // namespace platewright
