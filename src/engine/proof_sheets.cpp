// Rules on what a sheet is for: labels and words that keep apart, rulers that
// are true, keys that go with their worksheets.
#include <algorithm>
#include <cmath>
#include <set>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "engine/proof_rules.hpp"

namespace platewright::proofing {
namespace {

constexpr double touching = 0.05;  // mm that boxes may share, a rounding
constexpr std::size_t most_words = 20'000;  // of a page, that are held against each other
constexpr double free_line = 0.2;  // of a word's box that is free above and below its letters

void labels(const read::FinishedPage& page, Sink& sink) {
  for (std::size_t i = 0; i < page.labels.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      const auto &a = page.labels[i], &b = page.labels[j];
      if (overlap(a.box.grown(-touching), b.box))
        sink.add(Severity::error, "proof-labels-overlap", united(a.box, b.box),
                 "the labels of " + in_quotes(b.anchor) + " and " + in_quotes(a.anchor) + " overlap",
                 "move one of them");
    }
}

// Words on words, of two labels or of anything; in a PDF that is all that can be told.
void words(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  if (limits.overlap <= 0 || page.words.size() > most_words) return;
  struct Letters {
    PageBox box;
    const read::FinishedWord* word;
  };
  std::vector<Letters> all;
  for (const read::FinishedWord& word : page.words)
    if (word.upright)
      all.push_back({{word.box.x, word.box.y + free_line * word.box.h, word.box.w,
                      (1 - 2 * free_line) * word.box.h},
                     &word});
  std::stable_sort(all.begin(), all.end(), [](const Letters& a, const Letters& b) {
    return a.box.top() < b.box.top();
  });
  for (std::size_t i = 0; i < all.size(); ++i)
    for (std::size_t j = i + 1; j < all.size() && all[j].box.top() < all[i].box.bottom(); ++j) {
      const PageBox &a = all[i].box, &b = all[j].box;
      const double wide = std::min(a.right(), b.right()) - std::max(a.left(), b.left());
      const double high = std::min(a.bottom(), b.bottom()) - std::max(a.top(), b.top());
      const bool labels = !page.labels.empty() && !all[i].word->anchor.empty() &&
                          !all[j].word->anchor.empty();  // told by the labels' boxes
      if (labels || wide <= 0 || high <= 0 ||
          wide * high <= limits.overlap * std::min(a.w * a.h, b.w * b.h))
        continue;
      sink.add(Severity::error, "proof-labels-overlap", united(a, b),
               in_quotes(all[i].word->text) + " and " + in_quotes(all[j].word->text) + " overlap",
               "move one of them");
    }
}

// A ruler's figures 0, 5 and 10 and the word cm, in a row or in a column.
void rulers(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  if (limits.ruler.mm() <= 0) return;
  const auto named = [&](std::string_view text) {
    std::vector<PageBox> boxes;
    for (const read::FinishedWord& word : page.words)
      if (word.text == text) boxes.push_back(word.box);
    return boxes;
  };
  const auto zeros = named("0"), fives = named("5"), tens = named("10"), units = named("cm");
  for (const PageBox& ten : tens)
    for (const PageBox& zero : zeros)
      for (const PageBox& five : fives) {
        const PagePoint a = zero.centre(), b = five.centre(), c = ten.centre();
        const bool across = std::abs(c.x - a.x) > std::abs(c.y - a.y);
        const double length = across ? std::abs(c.x - a.x) : std::abs(c.y - a.y);
        const double aside = across ? std::abs(c.y - a.y) : std::abs(c.x - a.x);
        const double half = across ? std::abs(b.x - a.x) : std::abs(b.y - a.y);
        const double aside_five = across ? std::abs(b.y - a.y) : std::abs(b.x - a.x);
        if (length < 20 || aside > 3 || aside_five > 3 || std::abs(half - length / 2) > 1) continue;
        const bool is_ruler = std::any_of(units.begin(), units.end(), [&](const PageBox& u) {
          return distance(u.centre(), c) < 0.15 * length;
        });
        if (!is_ruler || std::abs(length - 100) <= limits.ruler.mm()) continue;
        sink.add(Severity::error, "proof-ruler", united(zero, ten),
                 "the ruler's 10 cm are " + format_number(length, 1) + " mm long",
                 "make the file anew, without fitting it to a page");
      }
}

// The words set largest, in their order: the sheet's title.
std::string title_of(const read::FinishedPage& page) {
  double most = 0;
  for (const read::FinishedWord& word : page.words) most = std::max(most, word.size_pt);
  std::string title;
  for (const read::FinishedWord& word : page.words)
    if (word.size_pt > 0.98 * most) title += (title.empty() ? "" : " ") + word.text;
  return title;
}

// The sheet's own file beside a key's, "heart-quiz.pdf" of "heart-quiz-key.pdf"; else nothing.
std::string sheet_of_key(const std::string& path) {
  const std::size_t dot = path.rfind('.');
  if (dot == std::string::npos || dot < 4 || path.compare(dot - 4, 4, "-key") != 0) return {};
  return path.substr(0, dot - 4) + path.substr(dot);
}

struct Coded {
  std::string file;
  std::size_t page = 0;
  std::string title;
  std::string code;
  PageBox at;
};

}  // namespace

void sheet_rules(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  labels(page, sink);
  words(page, limits, sink);
  rulers(page, limits, sink);
}

void code_rule(const std::vector<read::Finished>& files, const std::vector<CodeWords>& words,
               Sink& sink) {
  std::vector<Coded> worksheets, keys;
  std::set<std::string> looked_at;
  for (const read::Finished& file : files) {
    looked_at.insert(file.path);
    for (std::size_t i = 0; i < file.pages.size(); ++i) {
      const read::FinishedPage& page = file.pages[i];
      std::string text = " ";
      std::vector<std::size_t> starts;
      for (const read::FinishedWord& word : page.words) {
        starts.push_back(text.size());
        text += word.text + " ";
      }
      for (const CodeWords& w : words) {
        const std::size_t at = text.rfind(" " + w.before);
        if (at == std::string::npos) continue;
        const std::size_t from = at + 1 + w.before.size();
        Coded coded{
            file.path, i, title_of(page), text.substr(from, text.find(' ', from) - from), {}};
        const auto word = std::upper_bound(starts.begin(), starts.end(), from) - starts.begin() - 1;
        coded.at = page.words[static_cast<std::size_t>(word)].box;
        const bool is_key = text.find(" " + w.key + " ") != std::string::npos;
        (is_key ? keys : worksheets).push_back(std::move(coded));
        break;
      }
    }
  }
  // A page does not say its kind, and the largest words of a card are no title. But a code is
  // one worksheet's alone: one that any worksheet has is right, and a key of another version
  // leaves its worksheet behind without a key.
  std::set<std::string> of_worksheets, of_keys;
  for (const Coded& sheet : worksheets) of_worksheets.insert(sheet.code);
  for (const Coded& key : keys) of_keys.insert(key.code);
  for (const Coded& key : keys) {
    // Its own sheet where that is there, which may have no code to compare.
    const std::string own = sheet_of_key(key.file);
    const bool alone = looked_at.contains(own);
    if (!alone && of_worksheets.contains(key.code)) continue;
    std::set<std::string> theirs;
    for (const Coded& sheet : worksheets)
      if (alone ? sheet.file == own : sheet.title == key.title && !of_keys.contains(sheet.code))
        theirs.insert(sheet.code);
    if (theirs.empty() || theirs.contains(key.code)) continue;
    std::string codes;
    for (const std::string& code : theirs) codes += (codes.empty() ? "" : ", ") + code;
    sink.on(key.file, key.page);
    sink.add(Severity::error, "proof-check-code", key.at,
             "the key of " + in_quotes(key.title) + " has the check code " + key.code +
                 ", its worksheets have " + codes,
             "make worksheet and key anew from one table");
  }
}

}  // namespace platewright::proofing
