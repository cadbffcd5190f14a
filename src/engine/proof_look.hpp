// One finished file looked at by the rules, page by page, so that no more than
// one page's pixels are kept at a time.
#pragma once

#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "engine/proof_rules.hpp"

namespace platewright::proofing {

// A file's bytes, and what is asked of it. It owns all it uses; see `within`.
struct Look {
  std::string path;
  std::string bytes;
  bool is_pdf = false;
  ProofStyle limits;
  std::optional<Length> text_floor;
  std::shared_ptr<const read::WordList> words;  // may be none
  std::set<std::string> left_out;               // codes of rules
};

struct Looked {
  Findings faults;              // why it could not be looked at, or not to its end
  std::vector<ProofPlace> found;
  std::vector<double> ink;      // of each page, per cent
  read::Finished file;          // its pages with their words alone
};

Looked looked_at(const Look& look);

// A picture of each place, as HTML; empty where its page can't be shown.
std::vector<std::string> pictures_of(const Look& look, const std::vector<ProofPlace>& places);

}  // namespace platewright::proofing
