// The findings of proof as a page of HTML, each with a picture of its place.
#pragma once

#include <string>
#include <vector>

#include "platewright/proof.hpp"
#include "read/finished.hpp"

namespace platewright::proofing {

// The place with what lies around it, framed, as an HTML image; all of the page
// where the place has no size.
std::string picture(const read::FinishedPage& page, const PageBox& at);

// One file without anything beside it; pictures are in it, one for each finding
// or empty.
std::string html_report(const ProofOutcome& outcome, const std::vector<std::string>& pictures);

}  // namespace platewright::proofing
