#include "platewright/engine.hpp"

// The shared library is made of the stages' archives; it needs a source of its own.
namespace platewright {
const char* version() { return PW_VERSION; }
}  // namespace platewright
