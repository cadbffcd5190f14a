// Values to bytes and back, exact to the last bit and whole: for the keys of kept work
// and for the work itself. Read back by the build of the program that wrote them only.
#pragma once

#include <concepts>
#include <cstdint>
#include <cstring>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace platewright {

// Names every member of a struct: `of(value, visit)` calls visit(member, member, ...). The
// members are taken by a structured binding, so that one added to the struct and
// forgotten here is an error of the compiler.
template <class T>
struct Members;

template <class T, class Type>
concept Like = std::same_as<std::remove_const_t<T>, Type>;

template <class T>
concept Plain = std::is_arithmetic_v<T> || std::is_enum_v<T>;

class ExactWriter {
 public:
  template <class T>
  ExactWriter& add(const T& value) {
    put(value);
    return *this;
  }
  const std::string& bytes() const { return bytes_; }

 private:
  template <Plain T>
  void put(const T& value) {
    bytes_.append(reinterpret_cast<const char*>(&value), sizeof value);
  }
  void put(const std::string& text) {
    put(text.size());
    bytes_ += text;
  }
  template <class A, class B>
  void put(const std::pair<A, B>& both) {
    put(both.first);
    put(both.second);
  }
  template <class T>
  void put(const std::vector<T>& list) {
    put(list.size());
    if constexpr (std::same_as<T, bool>) {
      for (const bool one : list) put(one);
    } else if constexpr (Plain<T>) {
      if (!list.empty())
        bytes_.append(reinterpret_cast<const char*>(list.data()), list.size() * sizeof(T));
    } else {
      for (const T& one : list) put(one);
    }
  }
  template <class K, class T>
  void put(const std::map<K, T>& list) {
    put(list.size());
    for (const auto& [key, value] : list) {
      put(key);
      put(value);
    }
  }
  template <class T>
  void put(const std::shared_ptr<const T>& value) {
    put(value != nullptr);
    if (value) put(*value);
  }
  template <class T>
  void put(const std::optional<T>& value) {
    put(value.has_value());
    if (value) put(*value);
  }
  template <class T>
  void put(const T& value)
    requires std::is_class_v<T>
  {
    Members<T>::of(value, [this](const auto&... member) { (put(member), ...); });
  }

  std::string bytes_;
};

// After a fault all values are empty or 0 and `whole` is false.
class ExactReader {
 public:
  explicit ExactReader(std::string_view bytes) : rest_(bytes) {}

  template <class T>
  T take() {
    T value{};
    get(value);
    return value;
  }
  bool whole() const { return good_ && rest_.empty(); }

 private:
  bool has(std::size_t bytes) {
    good_ = good_ && bytes <= rest_.size();
    return good_;
  }
  // Of things that take a byte each, at least.
  std::size_t count(std::size_t each = 1) {
    std::size_t number = 0;
    get(number);
    good_ = good_ && number <= rest_.size() / each;
    return good_ ? number : 0;
  }
  template <Plain T>
  void get(T& value) {
    if (!has(sizeof value)) return;
    if constexpr (std::same_as<T, bool>)
      value = rest_.front() != 0;
    else
      std::memcpy(&value, rest_.data(), sizeof value);
    rest_.remove_prefix(sizeof value);
  }
  void get(std::string& text) {
    const std::size_t size = count();
    text.assign(rest_.substr(0, size));
    rest_.remove_prefix(size);
  }
  template <class A, class B>
  void get(std::pair<A, B>& both) {
    get(both.first);
    get(both.second);
  }
  template <class T>
  void get(std::vector<T>& list) {
    if constexpr (std::same_as<T, bool>) {
      const std::size_t size = count();
      for (std::size_t i = 0; i < size; ++i) list.push_back(take<bool>());
    } else if constexpr (Plain<T>) {
      list.resize(count(sizeof(T)));
      if (!list.empty()) std::memcpy(list.data(), rest_.data(), list.size() * sizeof(T));
      rest_.remove_prefix(list.size() * sizeof(T));
    } else {
      list.resize(count());
      for (T& one : list) get(one);
    }
  }
  template <class T>
  void get(std::shared_ptr<const T>& value) {
    if (take<bool>()) value = std::make_shared<const T>(take<T>());
  }
  template <class T>
  void get(std::optional<T>& value) {
    if (take<bool>()) value = take<T>();
  }
  template <class T>
  void get(T& value)
    requires std::is_class_v<T>
  {
    Members<T>::of(value, [this](auto&... member) { (get(member), ...); });
  }

  std::string_view rest_;
  bool good_ = true;
};

}  // namespace platewright
