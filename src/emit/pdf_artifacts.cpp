#include "emit/pdf_artifacts.hpp"

#include <algorithm>

namespace platewright::emit {

void ArtifactFilter::handleToken(const QPDFTokenizer::Token& token) {
  if (!begun_) write("/Artifact BMC\n");
  begun_ = true;
  held_.push_back(token);
  if (token.getType() != QPDFTokenizer::tt_word) return;
  const std::string& word = token.getValue();
  if (word == "BDC" || word == "BMC") {
    const bool structure = std::any_of(held_.begin(), held_.end(), [](const auto& t) {
      return t.getType() == QPDFTokenizer::tt_name && t.getValue() == "/MCID";
    });
    if (structure) write("\nEMC\n");
    marks_.push_back(structure);
    flush();
  } else if (word == "EMC" && !marks_.empty()) {
    const bool structure = marks_.back();
    marks_.pop_back();
    flush();
    if (structure) write("\n/Artifact BMC\n");
  } else {
    flush();
  }
}

void ArtifactFilter::handleEOF() {
  flush();
  if (begun_) write("\nEMC\n");
}

void ArtifactFilter::flush() {
  for (const QPDFTokenizer::Token& token : held_) writeToken(token);
  held_.clear();
}

}  // namespace platewright::emit
