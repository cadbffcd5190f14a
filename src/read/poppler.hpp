// Poppler's functions, loaded when the first PDF is read: with what it needs itself the library
// takes a fifth of the program's start, and only proof reads PDFs.
#pragma once

#include <poppler.h>

#include <string>

namespace platewright::read {

struct Poppler {
  decltype(&poppler_document_new_from_bytes) document_new_from_bytes = nullptr;
  decltype(&poppler_document_get_n_pages) document_get_n_pages = nullptr;
  decltype(&poppler_document_get_page) document_get_page = nullptr;
  decltype(&poppler_page_render) page_render = nullptr;
  decltype(&poppler_page_get_text) page_get_text = nullptr;
  decltype(&poppler_page_get_text_layout) page_get_text_layout = nullptr;
  decltype(&poppler_page_get_text_attributes) page_get_text_attributes = nullptr;
  decltype(&poppler_page_free_text_attributes) page_free_text_attributes = nullptr;
  decltype(&poppler_font_info_new) font_info_new = nullptr;
  decltype(&poppler_font_info_scan) font_info_scan = nullptr;
  decltype(&poppler_fonts_iter_next) fonts_iter_next = nullptr;
  decltype(&poppler_fonts_iter_get_full_name) fonts_iter_get_full_name = nullptr;
  decltype(&poppler_fonts_iter_is_embedded) fonts_iter_is_embedded = nullptr;
  decltype(&poppler_fonts_iter_free) fonts_iter_free = nullptr;
};

// The same for the life of the program, from any thread. Null where the library can't be loaded;
// then `why` says why.
const Poppler* poppler(std::string& why);

}  // namespace platewright::read
