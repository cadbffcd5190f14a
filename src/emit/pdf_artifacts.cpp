#include "emit/pdf_artifacts.hpp"

#include <algorithm>
#include <optional>

#include "base/number.hpp"

namespace platewright::emit {
namespace {

using Tokens = std::vector<QPDFTokenizer::Token>;

std::string string_of(const std::string& name) {
  return QPDFObjectHandle::newUnicodeString(name).unparse();
}

// The content's number of a structure (its MCID), where these operands have one.
std::optional<int> content_of(const Tokens& held) {
  bool key = false;
  for (const QPDFTokenizer::Token& token : held) {
    if (key && token.getType() == QPDFTokenizer::tt_integer) return parse_integer(token.getValue());
    if (token.getType() == QPDFTokenizer::tt_name) key = token.getValue() == "/MCID";
  }
  return std::nullopt;
}

}  // namespace

void ArtifactFilter::handleToken(const QPDFTokenizer::Token& token) {
  if (!begun_) write("/Artifact BMC\n");
  begun_ = true;
  held_.push_back(token);
  if (token.getType() != QPDFTokenizer::tt_word) return;
  const std::string& word = token.getValue();
  if (word == "BDC" || word == "BMC") {
    const auto content = content_of(held_);
    marks_.push_back(content.has_value());
    if (content)
      open_structure(*content);
    else
      flush();
  } else if (word == "EMC" && !marks_.empty()) {
    const bool structure = marks_.back();
    marks_.pop_back();
    flush();
    if (structure) write("\n/Artifact BMC\n");
  } else if (word == "M" && is_leader_miter()) {
    held_.clear();
    write("\n4 M");
  } else if (word == "m" && !leader_.empty() && !in_leader_) {
    write(std::string("\nEMC\n/Artifact <<") + leader_key + ' ' + leader_ + ">> BDC\n");
    in_leader_ = true;
    flush();
  } else if (word == "S" && in_leader_) {
    flush();
    write("\nEMC\n/Artifact BMC\n");
    in_leader_ = false;
    leader_.clear();
  } else {
    flush();
  }
}

void ArtifactFilter::handleEOF() {
  flush();
  if (begun_) write("\nEMC\n");
}

void ArtifactFilter::open_structure(int content) {
  write("\nEMC\n");
  const auto index = static_cast<std::size_t>(content);
  const std::string anchor = content >= 0 && index < names_.tagged.size() ? names_.tagged[index] : "";
  const auto tag = std::find_if(held_.begin(), held_.end(), [](const auto& t) {
    return t.getType() == QPDFTokenizer::tt_name;
  });
  if (anchor.empty() || tag == held_.end()) return flush();
  write(tag->getValue() + " <</MCID " + std::to_string(content) + ' ' + label_key + ' ' +
        string_of(anchor) + ">> BDC");
  held_.clear();
}

bool ArtifactFilter::is_leader_miter() {
  for (const QPDFTokenizer::Token& token : held_) {
    const auto limit = parse_number(token.getValue());
    if (!limit || *limit < first_leader_miter) continue;
    const auto index = static_cast<std::size_t>(*limit - first_leader_miter + 0.5);
    if (index >= names_.leaders.size()) continue;
    leader_ = string_of(names_.leaders[index]);
    return true;
  }
  return false;
}

void ArtifactFilter::flush() {
  for (const QPDFTokenizer::Token& token : held_) writeToken(token);
  held_.clear();
}

}  // namespace platewright::emit
