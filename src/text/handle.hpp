// Owning handles for the C libraries: Handle<cairo_t, cairo_destroy>.
#pragma once

#include <memory>

namespace platewright::text {

template <auto release>
struct Release {
  template <class T>
  void operator()(T* object) const {
    release(object);
  }
};

template <class T, auto release>
using Handle = std::unique_ptr<T, Release<release>>;

}  // namespace platewright::text
