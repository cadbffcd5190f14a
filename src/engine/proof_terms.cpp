// The rule on spelling: the words of each label are in the lists that the user names.
#include <map>

#include "base/nearest.hpp"
#include "base/quote.hpp"
#include "engine/proof_rules.hpp"
#include "read/word_list.hpp"

namespace platewright::proofing {

void term_rule(const read::FinishedPage& page, const read::WordList& list, Sink& sink) {
  struct Term {
    std::string text;
    PageBox box;
  };
  std::map<std::string, Term> terms;  // by anchor, its words in reading order
  for (const read::FinishedWord& word : page.words) {
    if (word.anchor.empty()) continue;
    Term& term = terms[word.anchor];
    term.box = term.text.empty() ? word.box : united(term.box, word.box);
    term.text += (term.text.empty() ? "" : " ") + word.text;
  }
  std::vector<std::string_view> known;
  for (const auto& [anchor, term] : terms)
    for (const std::string& word : read::unknown_words(list, term.text)) {
      if (known.empty()) known.assign(list.written.begin(), list.written.end());
      sink.add(Severity::warning, "proof-spelling", term.box,
               in_quotes(word) + " of the label " + in_quotes(term.text) + " is in no word list",
               did_you_mean(word, known, "check its spelling, or add it to the list"));
    }
}

}  // namespace platewright::proofing
