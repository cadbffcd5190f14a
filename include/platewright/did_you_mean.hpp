// What somebody may have meant by a misspelt name.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace platewright {

// "did you mean "aorta"" for the nearest of the known names, else `otherwise`.
std::string did_you_mean(std::string_view name, std::span<const std::string_view> known,
                         std::string otherwise);

}  // namespace platewright
