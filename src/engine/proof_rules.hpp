// The rules of proof, a function each group. They see finished pages only.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "platewright/proof.hpp"
#include "platewright/style.hpp"
#include "read/finished.hpp"
#include "read/word_list.hpp"

namespace platewright::proofing {

// What rules add to.
class Sink {
 public:
  // `left_out`: codes of rules that nothing is added of.
  Sink(std::vector<ProofPlace>& to, std::set<std::string> left_out)
      : to_(to), left_out_(std::move(left_out)) {}
  void on(const std::string& file, std::size_t page) {
    file_ = file;
    page_ = static_cast<int>(page) + 1;
    counts_.clear();
  }
  void add(Severity severity, const char* code, const PageBox& at, std::string message,
           std::string advice) {
    if (left_out_.contains(code)) return;
    const int count = ++counts_[code];
    if (count > most_a_page) return;
    if (count == most_a_page) message = "there are more of these on the page", advice.clear();
    Finding finding = severity == Severity::error
                          ? error(code, {file_, page_, 0}, std::move(message), std::move(advice))
                          : warning(code, {file_, page_, 0}, std::move(message), std::move(advice));
    to_.push_back({std::move(finding), at});
  }

 private:
  std::vector<ProofPlace>& to_;
  std::set<std::string> left_out_;
  std::string file_;
  int page_ = 0;
  std::map<std::string, int> counts_;  // of each code on the page

  static constexpr int most_a_page = 500;  // findings of one rule; a reader gives up before
};

// Boxes, size, type, lines, images, edges.
void page_rules(const read::FinishedPage& page, const ProofStyle& limits,
                std::optional<Length> text_floor, Sink& sink);
void font_rule(const read::Finished& file, Sink& sink);

// Contrast of text, colours that merge, ink.
void colour_rules(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink);
double ink_percent(const read::PagePixels& pixels);

// Leaders across leaders, through words, lost in the figure.
void leader_rules(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink);

// Labels' words that no list has.
void term_rule(const read::FinishedPage& page, const read::WordList& list, Sink& sink);

// Labels over labels, words over words, rulers.
void sheet_rules(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink);

// Check codes of worksheets and keys, over all files.
struct CodeWords {
  std::string before;  // "Check code "
  std::string key;     // "Answer key"
};
void code_rule(const std::vector<read::Finished>& files, const std::vector<CodeWords>& words,
               Sink& sink);

// Colours as a reader with a colour-vision deficiency sees them, sRGB to sRGB:
// Machado, Oliveira and Fernandes 2009, severity 1.0 (matrices from memory; each
// row adds up to 1, so that greys stay greys).
enum class Vision { grey, protan, deutan, tritan };
Colour seen_by(Vision vision, Colour colour);
// CIE 1976 colour difference, D65.
double difference(Colour a, Colour b);

}  // namespace platewright::proofing
