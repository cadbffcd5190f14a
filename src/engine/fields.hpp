// Values one after another, each with its length before it: "5:heart2:12". The
// form that work is kept in.
#pragma once

#include <string>
#include <string_view>

namespace platewright {

void put(std::string& out, std::string_view field);
void put(std::string& out, int value);
void put(std::string& out, double value);  // six decimals

// Reads them back; after a fault all values are empty or 0 and `whole` is false.
class Fields {
 public:
  explicit Fields(std::string_view bytes) : rest_(bytes) {}
  std::string_view text();
  int integer();
  double number();
  int count();  // of things that follow, at least two bytes each
  bool whole() const { return good_ && rest_.empty(); }

 private:
  std::string_view rest_;
  bool good_ = true;
};

}  // namespace platewright
