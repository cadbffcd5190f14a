#include "compose/emphasised.hpp"

#include <algorithm>

namespace platewright::compose {
namespace {

// A part of a word in one face.
struct Bit {
  std::string text;
  bool bold = false, italic = false;
  bool like(const Bit& other) const { return bold == other.bold && italic == other.italic; }
};
// What stands between two places where a line may end.
struct Word {
  std::vector<Bit> bits;
  bool spaced = false;  // a space follows, unless the line ends
};

std::vector<Word> words_of(const std::string& text, const std::vector<Emphasis>& emphasis,
                           const std::vector<std::size_t>& breaks) {
  std::vector<Word> words(1);
  std::size_t next = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    // A soft hyphen, which is not shown here, is no place to break.
    const bool soft = i >= 2 && text.compare(i - 2, 2, "\u00AD") == 0;
    if (next < breaks.size() && i >= breaks[next]) {
      ++next;
      if (!soft && !words.back().bits.empty()) words.emplace_back();
    }
    if (text[i] == ' ' && next < breaks.size() && text.find_first_not_of(' ', i) >= breaks[next]) {
      words.back().spaced = true;
      continue;
    }
    Bit bit{{text[i]}, false, false};
    for (const Emphasis& e : emphasis)
      if (i >= e.from && i < e.to) {
        bit.bold = bit.bold || e.bold;
        bit.italic = bit.italic || e.italic;
      }
    // The bytes of one letter lie in one stretch, as marks stand between letters.
    std::vector<Bit>& bits = words.back().bits;
    if (!bits.empty() && bits.back().like(bit))
      bits.back().text += text[i];
    else
      bits.push_back(std::move(bit));
  }
  if (words.back().bits.empty()) words.pop_back();
  return words;
}

class Filling {
 public:
  Filling(const text::Font& font, const std::string& language, const text::Typesetter& typesetter,
          double width)
      : font_(font),
        language_(language),
        typesetter_(typesetter),
        width_(width),
        // Between two letters, as some shapers drop it at an end.
        space_(set({"n n", false, false}).advance - set({"nn", false, false}).advance) {}

  void add(const Word& word) {
    double advance = 0;
    for (const Bit& bit : word.bits) advance += set(bit).advance;
    const double apart = !line_.empty() && line_.back().spaced ? space_ : 0;
    if (!line_.empty() && used_ + apart + advance > width_ + 1e-6) finish();
    if (advance > width_) return add_long(word);
    used_ += (line_.empty() ? 0 : apart) + advance;
    line_.push_back(word);
  }
  std::vector<PiecedLine> all() {
    if (!line_.empty()) finish();
    return std::move(lines_);
  }

 private:
  text::Font face(const Bit& bit) const {
    text::Font font = font_;
    font.bold = font.bold || bit.bold;
    font.italic = font.italic || bit.italic;
    return font;
  }
  text::Line set(const Bit& bit) const { return typesetter_.line(bit.text, face(bit), language_); }

  // Words of one face side by side are one run.
  void finish() {
    PiecedLine line;
    Bit run;
    const auto push = [&] {
      if (run.text.empty()) return;
      FacedRun faced{set(run), line.advance};
      line.advance += faced.line.advance;
      line.ascent = std::max(line.ascent, faced.line.ascent);
      line.runs.push_back(std::move(faced));
      run = {};
    };
    for (std::size_t w = 0; w < line_.size(); ++w)
      for (std::size_t b = 0; b < line_[w].bits.size(); ++b) {
        const Bit& bit = line_[w].bits[b];
        const bool apart = w > 0 && b == 0 && line_[w - 1].spaced;
        if (!run.text.empty() && run.like(bit)) {
          run.text += (apart ? " " : "") + bit.text;
          continue;
        }
        push();
        if (apart) line.advance += space_;
        run = bit;
      }
    push();
    lines_.push_back(std::move(line));
    line_.clear();
    used_ = 0;
  }

  void add_long(const Word& word) {
    for (const Bit& bit : word.bits)
      for (text::Line& part :
           typesetter_.paragraph(bit.text, face(bit), language_, 1, width_).lines) {
        PiecedLine line;
        line.advance = part.advance;
        line.ascent = part.ascent;
        line.runs.push_back({std::move(part), 0});
        lines_.push_back(std::move(line));
      }
  }

  const text::Font& font_;
  const std::string& language_;
  const text::Typesetter& typesetter_;
  double width_, space_;
  std::vector<Word> line_;
  double used_ = 0;
  std::vector<PiecedLine> lines_;
};

}  // namespace

std::vector<PiecedLine> emphasised(const std::string& text, const std::vector<Emphasis>& emphasis,
                                   const text::Font& font, const std::string& language,
                                   const text::Typesetter& typesetter, double width) {
  Filling filling(font, language, typesetter, width);
  for (const Word& word : words_of(text, emphasis, typesetter.breaks(text, language)))
    filling.add(word);
  return filling.all();
}

}  // namespace platewright::compose
