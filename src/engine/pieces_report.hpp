// Where each piece lies on its page, mm.
#pragma once

#include <string>
#include <vector>

#include "compose/pieces.hpp"
#include "compose/true_size.hpp"

namespace platewright {

struct TiledPieceReport {
  std::size_t piece = 0;       // of PiecesInput::pieces
  std::size_t first_page = 0;  // counted from 0
  std::vector<compose::TileSheet> sheets;
};

struct PiecesReport {
  std::string figure;
  std::vector<std::string> files;
  const compose::PiecesInput* input = nullptr;
  double page_area = 0;  // mm2 that pieces may take on a page
  double factor = 1;
  std::string paper;
  std::vector<std::size_t> nested;  // pieces, in the order of the nest's places
  const place::Nest* nest = nullptr;
  const std::vector<compose::PiecePage>* pages = nullptr;
  const std::vector<TiledPieceReport>* tiled = nullptr;
};

std::string pieces_report(const PiecesReport& report);

}  // namespace platewright
