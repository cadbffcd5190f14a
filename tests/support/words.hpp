// Texts cut up and cleaned for comparing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace support {

std::vector<std::string> split(std::string_view text, char separator);
// Runs of white space to one space, none at the ends.
std::string folded(std::string_view text);
bool contains(std::string_view text, std::string_view part);
std::string replaced(std::string text, std::string_view what, std::string_view by);
// What stands between `before` and `after`, each time.
std::vector<std::string> between(std::string_view text, std::string_view before,
                                 std::string_view after);
// "%C3%A4" and the like back to bytes.
std::string decoded_percent(std::string_view text);
// The five XML entities and decimal references back to characters.
std::string decoded_xml(std::string_view text);
// A number as std::from_chars reads it; throws when there is none.
double number(std::string_view text);

}  // namespace support
