// Kept layouts: whatever can alter an answer alters its key, and what comes back is the
// answer to the last bit.
#include "engine/layout_store.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <functional>
#include <set>

#include "engine/exact.hpp"
#include "engine/layout_members.hpp"
#include "read/read.hpp"
#include "support/scratch.hpp"

namespace {

namespace fs = std::filesystem;
using namespace platewright;

place::FitLabel label(const std::string& name, double x, double y) {
  place::FitLabel l;
  l.anchor = name;
  l.variants = {{{30, 6, 3, 0}, {16, 12, 6, 2}}, {{24, 5, 2.5, 0}, {13, 10, 5, 2}}};
  l.number = {5, 5, 2.5, 0};
  l.targets = {{{{x, y}}, 0}, {{{x + 2, y}}, 0.5}};
  l.preferred = x < 50 ? -1 : 1;
  l.group = "a group";
  return l;
}

place::FitRequest request() {
  place::FitRequest r;
  r.area = {10, 10, 190, 130};
  r.painted = {0, 0, 100, 100};
  for (int row = 0; row < 20; ++row) r.profile.emplace_back(10.0, 90.0);
  r.detail_box = {0, 0, 100, 100};
  r.detail_columns = r.detail_rows = 4;
  r.detail.assign(16, 0.25F);
  for (int i = 0; i < 5; ++i)
    r.labels.push_back(label("anchor-" + std::to_string(i), i % 2 == 0 ? 20 : 80, 10 + 15 * i));
  place::FigureRoom room{{20, 20, 50, 50}, 2, 2, {1, 0, 1, 1}};
  r.labels.back().room = std::make_shared<const place::FigureRoom>(std::move(room));
  r.text_pt = {18, 14};
  r.obstacles = {{0, 0, 1, 1}};
  r.inside = {label("within", 50, 50)};
  return r;
}

// Every single value below `value`, changed one at a time: `tell` sees each change.
template <class T>
void each_change(T& value, const std::function<void()>& tell) {
  const auto with = [&](T other) {
    std::swap(value, other);
    tell();
    std::swap(value, other);
  };
  if constexpr (std::same_as<T, bool>) {
    with(!value);
  } else if constexpr (std::is_floating_point_v<T>) {
    with(std::nextafter(value, value + 1));
    with(value + 1);
  } else if constexpr (std::is_arithmetic_v<T>) {
    with(static_cast<T>(value + 1));
  } else if constexpr (std::is_enum_v<T>) {
    with(static_cast<T>(static_cast<int>(value) + 1));
  } else if constexpr (std::same_as<T, std::string>) {
    with(value + "x");
    with("x" + value);
  } else if constexpr (requires { value.first; }) {
    each_change(value.first, tell);
    each_change(value.second, tell);
  } else if constexpr (requires { value.push_back(value.front()); }) {
    T longer = value;
    longer.emplace_back();
    with(longer);
    if (!value.empty()) {
      T shorter = value;
      shorter.pop_back();
      with(shorter);
      if constexpr (std::same_as<T, std::vector<bool>>) {
        for (std::size_t i = 0; i < value.size(); ++i) {
          value[i].flip();
          tell();
          value[i].flip();
        }
      } else {
        for (auto& one : value) each_change(one, tell);
      }
    }
  } else if constexpr (requires { value.get(); }) {
    if (value == nullptr) {
      with(std::make_shared<typename T::element_type>());
    } else {
      with(nullptr);
      auto inner = *value;
      each_change(inner, [&] { with(std::make_shared<typename T::element_type>(inner)); });
    }
  } else {
    Members<T>::of(value, [&](auto&... member) { (each_change(member, tell), ...); });
  }
}

TEST(Layout_key, Changes_with_every_single_value_that_the_solver_is_asked_by) {
  place::FitRequest asked = request();
  place::Effort effort{5'000, 0};
  std::set<std::string> keys{fit_key(asked, effort)};
  std::size_t changes = 0;
  each_change<place::FitRequest>(asked, [&] {
    ++changes;
    EXPECT_TRUE(keys.insert(fit_key(asked, effort)).second) << "change " << changes;
  });
  each_change<place::Effort>(effort, [&] {
    ++changes;
    EXPECT_TRUE(keys.insert(fit_key(asked, effort)).second) << "change " << changes;
  });
  EXPECT_GT(changes, 500U);
  EXPECT_EQ(keys.size(), changes + 1);
  // And only by them: equal requests, whoever makes them, have one key.
  EXPECT_TRUE(keys.contains(fit_key(request(), {5'000, 0})));
}

TEST(Layout_key, Of_a_settled_layout_changes_with_what_it_was_settled_from) {
  place::FitRequest asked = request();
  const place::Effort effort{5'000, 0};
  place::Fit fit = std::get<place::Fit>(place::fit(asked, effort));
  std::set<std::string> keys{settled_key(asked, fit, effort), fit_key(asked, effort)};
  EXPECT_EQ(keys.size(), 2U);
  const auto is_new = [&] { EXPECT_TRUE(keys.insert(settled_key(asked, fit, effort)).second); };
  each_change<place::Fit>(fit, is_new);
  asked.calm.smallest = 0.5;
  is_new();
}

TEST(Layout_store, Gives_the_solver_s_answer_to_the_last_bit_from_cold_and_from_warm) {
  const support::Scratch scratch;
  const place::FitRequest asked = request();
  const place::Effort glance{5'000, 0}, earnest{50'000, 10'000};
  const Placed plain = place::fit(asked, glance);
  const place::Fit better = settled(asked, std::get<place::Fit>(plain), earnest);
  const auto bits = [](const place::Fit& fit) { return ExactWriter().add(fit).bytes(); };
  for (int round = 0; round < 2; ++round) {
    PartStore parts(scratch / "c");
    LayoutStore store(parts);
    const Placed kept = store.fit(asked, glance);
    EXPECT_EQ(bits(std::get<place::Fit>(kept)), bits(std::get<place::Fit>(plain)));
    EXPECT_EQ(bits(store.settled(asked, std::get<place::Fit>(kept), earnest)), bits(better));
    EXPECT_TRUE(parts.find(fit_key(asked, glance)));
    EXPECT_TRUE(parts.find(settled_key(asked, std::get<place::Fit>(plain), earnest)));
  }
}

TEST(Layout_store, Answers_from_what_was_kept_and_not_by_solving_again) {
  const support::Scratch scratch;
  const place::FitRequest asked = request();
  PartStore parts(scratch / "c");
  parts.keep(fit_key(asked, {5'000, 0}), to_bytes(place::Infeasible{"kept"}, asked));
  const Placed kept = LayoutStore(parts).fit(asked, {5'000, 0});
  ASSERT_TRUE(std::holds_alternative<place::Infeasible>(kept));
  EXPECT_EQ(std::get<place::Infeasible>(kept).witness, "kept");
}

TEST(Layout_store, Takes_no_part_of_an_answer_and_no_other_request_s_for_one) {
  const place::FitRequest asked = request();
  const Placed placed = place::fit(asked, {5'000, 0});
  const std::string bytes = to_bytes(placed, asked);
  ASSERT_TRUE(placed_from(bytes, asked));
  for (std::size_t size = 0; size < bytes.size(); ++size)
    EXPECT_FALSE(placed_from(bytes.substr(0, size), asked)) << size;
  EXPECT_FALSE(placed_from(bytes + "x", asked));
  place::FitRequest other = asked;
  other.labels.front().anchor = "another";
  EXPECT_FALSE(placed_from(bytes, other));
  other.labels.pop_back();
  EXPECT_FALSE(placed_from(bytes, other));
}

TEST(Layout_store, Solves_again_what_a_disk_spoiled) {
  const support::Scratch scratch;
  const place::FitRequest asked = request();
  const auto answer = [&] {
    PartStore parts(scratch / "c");
    return to_bytes(LayoutStore(parts).fit(asked, {5'000, 0}), asked);
  };
  const std::string first = answer();
  for (const auto& entry : fs::recursive_directory_iterator(scratch / "c"))
    if (entry.is_regular_file()) {
      std::string bytes = support::bytes_of(entry.path());
      bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] ^ 1);
      support::write(entry.path(), bytes);
    }
  EXPECT_EQ(answer(), first);
}

}  // namespace
