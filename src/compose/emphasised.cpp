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
using Word = std::vector<Bit>;

std::vector<Word> words_of(const std::string& text, const std::vector<Emphasis>& emphasis) {
  std::vector<Word> words(1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == ' ') {
      if (!words.back().empty()) words.emplace_back();
      continue;
    }
    Bit bit{{text[i]}, false, false};
    for (const Emphasis& e : emphasis)
      if (i >= e.from && i < e.to) {
        bit.bold = bit.bold || e.bold;
        bit.italic = bit.italic || e.italic;
      }
    // The bytes of one letter lie in one stretch, as marks stand between letters.
    if (!words.back().empty() && words.back().back().like(bit))
      words.back().back().text += text[i];
    else
      words.back().push_back(std::move(bit));
  }
  if (words.back().empty()) words.pop_back();
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
    for (const Bit& bit : word) advance += set(bit).advance;
    if (!line_.empty() && used_ + space_ + advance > width_ + 1e-6) finish();
    if (advance > width_) return add_long(word);
    used_ += (line_.empty() ? 0 : space_) + advance;
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

  // Words of one face side by side are one piece.
  void finish() {
    PiecedLine line;
    Bit run;
    const auto push = [&] {
      if (run.text.empty()) return;
      Piece piece{set(run), line.advance};
      line.advance += piece.line.advance;
      line.ascent = std::max(line.ascent, piece.line.ascent);
      line.pieces.push_back(std::move(piece));
      run = {};
    };
    for (std::size_t w = 0; w < line_.size(); ++w)
      for (std::size_t b = 0; b < line_[w].size(); ++b) {
        const Bit& bit = line_[w][b];
        const bool apart = w > 0 && b == 0;
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
    for (const Bit& bit : word)
      for (text::Line& part :
           typesetter_.paragraph(bit.text, face(bit), language_, 1, width_).lines) {
        PiecedLine line;
        line.advance = part.advance;
        line.ascent = part.ascent;
        line.pieces.push_back({std::move(part), 0});
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
  for (const Word& word : words_of(text, emphasis)) filling.add(word);
  return filling.all();
}

}  // namespace platewright::compose
