#include "read/emphasis.hpp"

#include <algorithm>

namespace platewright::read {
namespace {

struct Mark {
  std::size_t at = 0;  // in the text without marks
  std::size_t stars = 0;
  bool opens = false, closes = false;
  bool paired = false;
  bool ends_pair = false;  // with `partner`, before it
  std::size_t partner = 0;
};

bool is_space(char c) { return c == ' ' || c == '\n' || c == '\t'; }

}  // namespace

std::vector<Emphasis> take_emphasis(std::string& text) {
  if (text.find('*') == std::string::npos) return {};
  std::vector<Mark> marks;
  std::string bare;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] == '\\' && i + 1 < text.size() && text[i + 1] == '*') {
      bare += '*';
      i += 2;
      continue;
    }
    if (text[i] != '*') {
      bare += text[i++];
      continue;
    }
    const std::size_t end = std::min(text.find_first_not_of('*', i), text.size());
    const bool word_before = i > 0 && !is_space(text[i - 1]);
    const bool word_after = end < text.size() && !is_space(text[end]);
    marks.push_back({bare.size(), end - i, word_after, word_before, false, false, 0});
    i = end;
  }
  std::vector<std::size_t> open;
  for (std::size_t m = 0; m < marks.size(); ++m) {
    Mark& mark = marks[m];
    if (mark.stars > 3) continue;
    const auto same = [&](std::size_t o) {
      return marks[o].stars == mark.stars && marks[o].at < mark.at;
    };
    const auto partner = std::find_if(open.rbegin(), open.rend(), same);
    if (mark.closes && partner != open.rend()) {
      mark.partner = *partner;
      mark.ends_pair = true;
      mark.paired = marks[*partner].paired = true;
      open.erase(partner.base() - 1, open.end());  // and what was opened within
      continue;
    }
    if (mark.opens) open.push_back(m);
  }
  // Marks without a partner are asterisks after all.
  std::vector<std::size_t> place(marks.size());
  std::string whole;
  std::size_t taken = 0;
  std::vector<Emphasis> found;
  for (std::size_t m = 0; m < marks.size(); ++m) {
    const Mark& mark = marks[m];
    whole.append(bare, taken, mark.at - taken);
    taken = mark.at;
    place[m] = whole.size();
    if (!mark.paired)
      whole.append(mark.stars, '*');
    else if (mark.ends_pair)
      found.push_back({place[mark.partner], whole.size(), mark.stars >= 2, mark.stars % 2 == 1});
  }
  whole.append(bare, taken);
  text = std::move(whole);
  std::sort(found.begin(), found.end(), [](const Emphasis& a, const Emphasis& b) {
    return a.from != b.from ? a.from < b.from : a.to > b.to;
  });
  return found;
}

}  // namespace platewright::read
