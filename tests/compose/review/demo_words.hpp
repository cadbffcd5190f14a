// Words of the demo tables as puzzles spell them, read apart from the program.
#pragma once

#include <string>
#include <vector>

namespace platewright::compose {

using Spelling = std::vector<std::string>;

// English terms of the heart, the child, the eye, the hand, the bee and the tooth.
inline const std::vector<std::string>& demo_terms() {
  static const std::vector<std::string> words = {
      "AORTA",      "SEPTUM",   "APEX",     "PERICARDIUM", "BRAIN",   "SKIN",     "LARYNX",
      "TRACHEA",    "LUNG",     "DIAPHRAGM", "HEART",      "LIVER",   "STOMACH",  "PANCREAS",
      "DUODENUM",   "APPENDIX", "SPLEEN",   "KIDNEY",      "BLADDER", "CORNEA",   "IRIS",
      "PUPIL",      "LENS",     "SCLERA",   "CHOROID",     "RETINA",  "MACULA",   "FOVEA",
      "CONJUNCTIVA", "RADIUS",  "ULNA",     "SCAPHOID",    "LUNATE",  "PISIFORM", "TRAPEZIUM",
      "CAPITATE",   "HAMATE",   "THORAX",   "ABDOMEN",     "ANTENNA", "MANDIBLE", "PROBOSCIS",
      "FOREWING",   "COXA",     "FEMUR",    "TIBIA",       "TARSUS",  "CLAWS",    "SPIRACLE",
      "STING",      "CROWN",    "ROOT",     "ENAMEL",      "DENTINE", "CEMENT",   "PULP",
      "NERVE",      "JAWBONE"};
  return words;
}

inline Spelling spelt(const std::string& word) {
  Spelling letters;
  for (const char c : word) letters.emplace_back(1, c);
  return letters;
}

}  // namespace platewright::compose
