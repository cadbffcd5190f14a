// The findings of proof as a page of HTML, each with a picture of its place.
#pragma once

#include <string>
#include <vector>

#include "platewright/proof.hpp"
#include "read/finished.hpp"

namespace platewright::proofing {

// One file without anything beside it; pictures are in it.
std::string html_report(const ProofOutcome& outcome, const std::vector<read::Finished>& files);

}  // namespace platewright::proofing
