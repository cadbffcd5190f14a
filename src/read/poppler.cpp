#include "read/poppler.hpp"

#include <dlfcn.h>

#include <type_traits>

namespace platewright::read {
namespace {

struct Loaded {
  Poppler functions;
  std::string why;  // not
};

Loaded load() {
  Loaded out;
  void* const library = ::dlopen(PW_POPPLER_LIBRARY, RTLD_LAZY | RTLD_LOCAL);
  const auto fault = [] {
    const char* words = ::dlerror();
    return std::string(words != nullptr ? words : "unknown fault");
  };
  if (library == nullptr) {
    out.why = fault();
    return out;
  }
  const auto take = [&](auto& function, const char* name) {
    function =
        reinterpret_cast<std::remove_reference_t<decltype(function)>>(::dlsym(library, name));
    if (function == nullptr && out.why.empty()) out.why = fault();
  };
  Poppler& p = out.functions;
  take(p.document_new_from_bytes, "poppler_document_new_from_bytes");
  take(p.document_get_n_pages, "poppler_document_get_n_pages");
  take(p.document_get_page, "poppler_document_get_page");
  take(p.page_render, "poppler_page_render");
  take(p.page_get_text, "poppler_page_get_text");
  take(p.page_get_text_layout, "poppler_page_get_text_layout");
  take(p.page_get_text_attributes, "poppler_page_get_text_attributes");
  take(p.page_free_text_attributes, "poppler_page_free_text_attributes");
  take(p.font_info_new, "poppler_font_info_new");
  take(p.font_info_scan, "poppler_font_info_scan");
  take(p.fonts_iter_next, "poppler_fonts_iter_next");
  take(p.fonts_iter_get_full_name, "poppler_fonts_iter_get_full_name");
  take(p.fonts_iter_is_embedded, "poppler_fonts_iter_is_embedded");
  take(p.fonts_iter_free, "poppler_fonts_iter_free");
  return out;
}

}  // namespace

const Poppler* poppler(std::string& why) {
  static const Loaded loaded = load();
  why = loaded.why;
  return why.empty() ? &loaded.functions : nullptr;
}

}  // namespace platewright::read
