// JSON (RFC 8259) written in order, numbers the same in every locale.
#pragma once

#include <string>
#include <string_view>

namespace platewright {

// Usage: json.object(); json.key("a").number(1); json.end(); json.text()
class JsonWriter {
 public:
  JsonWriter& object() { return open('{', '}'); }
  JsonWriter& array() { return open('[', ']'); }
  JsonWriter& end();
  JsonWriter& key(std::string_view name);
  JsonWriter& string(std::string_view value);
  JsonWriter& number(double value, int decimals = 6);
  JsonWriter& exact(double value);  // as many digits as bring back the very same double
  JsonWriter& boolean(bool value);
  const std::string& text() const { return out_; }

 private:
  JsonWriter& open(char first, char last);
  void separate();
  std::string out_;
  std::string closers_;
  bool first_ = true;
  bool after_key_ = false;
};

}  // namespace platewright
