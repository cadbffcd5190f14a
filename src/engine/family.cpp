#include "engine/family.hpp"

#include <set>

#include "engine/part_key.hpp"
#include "engine/plan_members.hpp"

namespace platewright {

// One figure as one version shows it, on one paper, in one style.
Families::Family& Families::family_of(const PackPart& part) {
  const std::string version = part.request.version ? part.request.version->name : "";
  const std::string name = KeyWriter()
                               .add(std::to_string(part.table))
                               .add(part.request.version ? "version" : "")
                               .add(version)
                               .add(part.request.paper)
                               .add(part.request.style)
                               .digest();
  const std::lock_guard lock(guard_);
  auto& family = families_[name];
  if (!family) family = std::make_unique<Family>();
  return *family;
}

Result<Plans> Families::plans(const PackPart& part, const text::Typesetter& typesetter,
                              const text::StrokeFont* strokes, const Keeping& keeping) {
  std::set<Placing> wanted;
  for (const PackLook& look : part.looks)
    for (const SheetKind kind : look.kinds)
      if (const Placing placing = info_of(kind).placing; placing != Placing::none)
        wanted.insert(placing);
  Family& family = family_of(part);
  const std::lock_guard lock(family.guard);
  std::shared_ptr<const Loaded> loaded;
  Plans plans;
  for (const Placing placing : wanted) {
    auto known = family.plans.find(placing);
    if (known == family.plans.end()) {
      if (!loaded) {
        SheetRequest request = part.request;
        request.kinds = part.looks.front().kinds;
        auto read = load_to_compose(request, environment_, typesetter, &keeping);
        if (!read.ok()) return read.findings();
        loaded = std::move(*read);
      }
      auto made = member_plans(*loaded, placing, part.request.orientation, typesetter, strokes);
      if (!made.ok()) return made.findings();
      known = family.plans.emplace(placing, std::move(*made)).first;
    }
    // A set whose labels are all hidden is no member; making its part says so.
    const auto own = known->second.find(part.set.name);
    if (own == known->second.end()) return Plans{};
    plans[placing] = own->second;
  }
  return plans;
}

std::string placed_key(const std::string& own_key, const Plans& plans) {
  ExactWriter places;
  for (const auto& [placing, planned] : plans) places.add(placing).add(planned->plan);
  return KeyWriter().add("platewright placed part 1").add(own_key).add(places.bytes()).digest();
}

}  // namespace platewright
