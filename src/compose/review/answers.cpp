#include "compose/review/answers.hpp"

#include <algorithm>

#include "text/letters.hpp"

namespace platewright::compose {
namespace {

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text + " ") {
    if (c != ' ') {
      word += c;
    } else if (!word.empty()) {
      words.push_back(word);
      word.clear();
    }
  }
  return words;
}

Answer made_of(const SheetInput& input, const StudyTerm& term,
               const std::vector<std::string>& words) {
  Answer answer;
  answer.term = term;
  for (const std::string& word : words) {
    const Spelling letters = spelt(input, word);
    if (letters.empty()) continue;
    if (!answer.shown.empty()) answer.shown += ' ';
    for (const std::string& letter : letters) answer.shown += letter;
    answer.lengths.push_back(letters.size());
    answer.letters.insert(answer.letters.end(), letters.begin(), letters.end());
  }
  return answer;
}

}  // namespace

Spelling spelt(const SheetInput& input, std::string_view text) {
  return text::capitals(text, input.matter.language, input.style->review.fold_accents);
}

Answer answer_of(const SheetInput& input, const StudyTerm& term) {
  return made_of(input, term, words_of(short_name(term.text)));
}

std::vector<Spelling> unwanted_of(const SheetInput& input) {
  std::vector<Spelling> all;
  if (input.letters)
    for (const std::string& word : input.letters->unwanted) all.push_back(spelt(input, word));
  return all;
}

std::vector<Answer> separate_answers(const SheetInput& input, const std::vector<StudyTerm>& terms,
                                     std::size_t shortest, std::size_t longest, std::size_t most,
                                     bool single_words) {
  std::vector<Answer> answers;
  const auto fits = [&](const Answer& a) {
    if (a.letters.size() < shortest || a.letters.size() > longest) return false;
    return std::none_of(answers.begin(), answers.end(), [&](const Answer& b) {
      return hides(a.letters, b.letters) || hides(b.letters, a.letters);
    });
  };
  std::vector<const StudyTerm*> others;
  for (const StudyTerm& term : terms) {
    if (answers.size() >= most) break;
    const std::vector<std::string> words = words_of(short_name(term.text));
    const Answer whole = made_of(input, term, words);
    if ((!single_words || words.size() == 1) && fits(whole))
      answers.push_back(whole);
    else
      others.push_back(&term);
  }
  // A word alone often says little ("hind"), so it comes after whole terms.
  for (const StudyTerm* term : others) {
    if (answers.size() >= most) break;
    std::vector<Answer> single;
    for (const std::string& word : words_of(short_name(term->text)))
      single.push_back(made_of(input, *term, {word}));
    std::stable_sort(single.begin(), single.end(), [](const Answer& a, const Answer& b) {
      return a.letters.size() > b.letters.size();
    });
    const auto choice = std::find_if(single.begin(), single.end(), fits);
    if (choice != single.end()) answers.push_back(*choice);
  }
  return answers;
}

}  // namespace platewright::compose
