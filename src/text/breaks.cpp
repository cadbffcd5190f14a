// Breaking a label or a paragraph into lines.
#include <algorithm>
#include <limits>

#include "base/utf8.hpp"
#include "text/impl.hpp"
#include "text/unicode.hpp"

namespace platewright::text {
namespace {

// Up to so many pieces every possible line is shaped; beyond, widths are summed.
constexpr std::size_t most_shaped_pieces = 24;
// The partition looks at every pair of break opportunities.
constexpr std::size_t most_pieces = 1000;
constexpr double narrower_by = 1e-3;  // mm
constexpr double unset = std::numeric_limits<double>::infinity();

// A text with its break opportunities and the widths of the lines they allow.
class Breakable {
 public:
  Breakable(Typesetter::Impl& impl, std::string_view text, const Font& font,
            std::string_view language)
      : impl_(impl),
        text_(cleaned(text)),
        font_(font),
        language_(language),
        direction_(direction_of(text_, language)),
        pieces_(pieces_of(text_, language)) {}

  std::size_t count() const { return pieces_.size(); }
  const Piece& piece(std::size_t i) const { return pieces_[i]; }

  void drop_empty_lines() {
    std::vector<Piece> kept;
    for (const Piece& p : pieces_) {
      if (!visible(text_, p.begin, p.end, false).empty())
        kept.push_back(p);
      else if (!kept.empty())
        kept.back().forced = kept.back().forced || p.forced;
    }
    if (kept.empty()) kept.push_back({0, 0, true});
    pieces_ = std::move(kept);
  }

  // Joins neighbours until no more than `most` break opportunities remain.
  void coarsen(std::size_t most) {
    while (pieces_.size() > most) {
      std::vector<Piece> joined;
      bool paired = false;
      for (const Piece& p : pieces_) {
        paired = !paired && !joined.empty() && !joined.back().forced;
        if (paired)
          joined.back() = {joined.back().begin, p.end, p.forced};
        else
          joined.push_back(p);
      }
      if (joined.size() == pieces_.size()) return;  // all breaks are forced
      pieces_ = std::move(joined);
    }
  }

  Line line(std::size_t begin, std::size_t end, bool broken) const {
    return measured(impl_, visible(text_, begin, end, broken), font_, language_, direction_);
  }
  // The line of pieces i..j-1.
  Line line_of(std::size_t i, std::size_t j) const {
    return line(pieces_[i].begin, pieces_[j - 1].end, !pieces_[j - 1].forced);
  }

  // Widths by sums: exact but for kerning across a space.
  void sum_widths() {
    before_.assign(count() + 1, 0);
    tail_.assign(count(), 0);
    for (std::size_t i = 0; i < count(); ++i) {
      const Piece& p = pieces_[i];
      const double whole = plain(p);
      tail_[i] = whole - line_of(i, i + 1).advance;
      before_[i + 1] = before_[i] + whole;
    }
  }
  double summed_width(std::size_t i, std::size_t j) const {
    return before_[j] - before_[i] - tail_[j - 1];
  }

  // All ends of user-perceived characters inside piece i, for a word that no line holds.
  std::vector<std::size_t> cuts(std::size_t begin, std::size_t end) const {
    std::vector<std::size_t> ends = grapheme_ends(text_.substr(begin, end - begin), language_);
    for (std::size_t& e : ends) e += begin;
    return ends;
  }

  Block block(std::vector<Line> lines, double leading_ems) const {
    Block result;
    result.lines = std::move(lines);
    result.leading = leading_ems * font_.size.mm();
    for (const Line& l : result.lines) result.width = std::max(result.width, l.advance);
    result.height = result.lines.front().ascent + result.lines.back().descent +
                    result.leading * static_cast<double>(result.lines.size() - 1);
    return result;
  }

 private:
  double plain(const Piece& p) const {  // with its trailing spaces
    std::string shown;
    for (const char32_t c : characters(std::string_view(text_).substr(p.begin, p.end - p.begin)))
      if (c != 0xAD) append_utf8(shown, c);
    return measured(impl_, shown, font_, language_, direction_).advance;
  }

  Typesetter::Impl& impl_;
  std::string text_;
  Font font_;
  std::string language_;
  Direction direction_;
  std::vector<Piece> pieces_;
  std::vector<double> before_, tail_;
};

// widths[i][j]: of the line of pieces i..j-1; unset where a forced break lies inside.
std::vector<std::vector<double>> line_widths(Breakable& text) {
  const std::size_t n = text.count();
  const bool shape = n <= most_shaped_pieces;
  if (!shape) text.sum_widths();
  std::vector<std::vector<double>> widths(n, std::vector<double>(n + 1, unset));
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i + 1; j <= n; ++j) {
      widths[i][j] = shape ? text.line_of(i, j).advance : text.summed_width(i, j);
      if (text.piece(j - 1).forced) break;
    }
  return widths;
}

// Ends of the lines of the best partition into `count` lines: narrowest widest
// line first, then the least sum of squared shortfalls. Empty when there is none.
std::vector<std::size_t> partition(const std::vector<std::vector<double>>& widths,
                                   std::size_t count) {
  const std::size_t n = widths.size();
  if (count > n) return {};
  // Two passes of one recurrence: the cost of a line, and how costs join.
  const auto solve = [&](auto cost, auto join) {
    std::vector<std::vector<double>> best(count + 1, std::vector<double>(n + 1, unset));
    std::vector<std::vector<std::size_t>> from(count + 1, std::vector<std::size_t>(n + 1, 0));
    best[0][0] = 0;
    for (std::size_t k = 1; k <= count; ++k)
      for (std::size_t j = k; j <= n; ++j)
        for (std::size_t i = k - 1; i < j; ++i) {
          if (best[k - 1][i] == unset || widths[i][j] == unset) continue;
          const double total = join(best[k - 1][i], cost(widths[i][j]));
          if (total < best[k][j]) best[k][j] = total, from[k][j] = i;
        }
    return std::pair(std::move(best), std::move(from));
  };
  const double widest =
      solve([](double w) { return w; }, [](double a, double b) { return std::max(a, b); })
          .first[count][n];
  if (widest == unset) return {};
  const auto [best, from] =
      solve([&](double w) { return w <= widest ? (widest - w) * (widest - w) : unset; },
            [](double a, double b) { return a + b; });
  std::vector<std::size_t> ends(count);
  for (std::size_t k = count, j = n; k > 0; j = from[k][j], --k) ends[k - 1] = j;
  return ends;
}

// A word that no line holds, cut between user-perceived characters into lines
// as full as they go; a line keeps one of them at least.
std::vector<Line> cut_word(const Breakable& text, const Piece& word, double width) {
  const std::vector<std::size_t> ends = text.cuts(word.begin, word.end);
  std::vector<Line> lines;
  std::size_t begin = word.begin;
  for (std::size_t done = 0; done < ends.size();) {
    const auto line_to = [&](std::size_t count) {
      const std::size_t end = ends[done + count - 1];
      return text.line(begin, end, end == word.end && !word.forced);
    };
    // Doubling, then halving: no line is shaped that is much longer than the result.
    const std::size_t rest = ends.size() - done;
    std::size_t fits = 1, too_many = rest + 1;
    for (std::size_t count = 2; fits < rest; count *= 2) {
      count = std::min(count, rest);
      if (line_to(count).advance > width) {
        too_many = count;
        break;
      }
      fits = count;
    }
    while (too_many - fits > 1 && fits < rest) {
      const std::size_t middle = (fits + too_many) / 2;
      (line_to(middle).advance <= width ? fits : too_many) = middle;
    }
    lines.push_back(line_to(fits));
    done += fits;
    begin = ends[done - 1];
  }
  return lines;
}

}  // namespace

std::vector<Block> Typesetter::ways(std::string_view text, const Font& font,
                                    std::string_view language, double leading_ems,
                                    int most_lines) const {
  Breakable breakable(*impl_, text, font, language);
  breakable.drop_empty_lines();
  breakable.coarsen(most_pieces);
  std::size_t fewest = 0;
  for (std::size_t i = 0; i < breakable.count(); ++i) fewest += breakable.piece(i).forced ? 1 : 0;
  const std::size_t most = std::max(fewest, static_cast<std::size_t>(std::max(1, most_lines)));

  const std::vector<std::vector<double>> widths = line_widths(breakable);
  std::vector<Block> result;
  for (std::size_t count = fewest; count <= most; ++count) {
    const std::vector<std::size_t> ends = partition(widths, count);
    if (ends.empty()) break;
    std::vector<Line> lines;
    std::size_t begin = 0;
    for (const std::size_t end : ends) {
      lines.push_back(breakable.line_of(begin, end));
      begin = end;
    }
    Block block = breakable.block(std::move(lines), leading_ems);
    if (result.empty() || block.width < result.back().width - narrower_by)
      result.push_back(std::move(block));
  }
  return result;
}

std::vector<std::size_t> Typesetter::breaks(std::string_view text,
                                            std::string_view language) const {
  std::vector<std::size_t> ends;
  for (const Piece& piece : pieces_of(std::string(text), language)) ends.push_back(piece.end);
  return ends;
}

Block Typesetter::paragraph(std::string_view text, const Font& font, std::string_view language,
                            double leading_ems, double width) const {
  Breakable breakable(*impl_, text, font, language);
  breakable.sum_widths();
  std::vector<Line> lines;
  for (std::size_t i = 0; i < breakable.count();) {
    // As many pieces as the sums promise, then fewer while the shaped line is too wide.
    std::size_t j = i + 1;
    while (j < breakable.count() && !breakable.piece(j - 1).forced &&
           breakable.summed_width(i, j + 1) <= width)
      ++j;
    Line line = breakable.line_of(i, j);
    while (line.advance > width && j > i + 1) line = breakable.line_of(i, --j);
    if (line.advance <= width) {
      lines.push_back(std::move(line));
      i = j;
      continue;
    }
    for (Line& part : cut_word(breakable, breakable.piece(i), width))
      lines.push_back(std::move(part));
    ++i;
  }
  return breakable.block(std::move(lines), leading_ems);
}

}  // namespace platewright::text
