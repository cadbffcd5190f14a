// Where labels stand in all label sets that share one layout, made once for all of them.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "engine/composing.hpp"
#include "engine/pack_plan.hpp"

namespace platewright {

class Families {
 public:
  Families(const PackPlan& plan, const Environment& environment)
      : plan_(plan), environment_(environment) {}

  // A part's plans, for every placement that its kinds ask for. May be used by several
  // threads at once: of one figure and paper the first makes them.
  Result<Plans> plans(const PackPart& part, const text::Typesetter& typesetter,
                      const text::StrokeFont* strokes, const Keeping& keeping);

 private:
  struct Family {
    std::mutex guard;
    std::map<Placing, MemberPlans> plans;
  };
  Family& family_of(const PackPart& part);

  const PackPlan& plan_;
  const Environment& environment_;
  std::mutex guard_;  // of the map; families stay where they are
  std::map<std::string, std::unique_ptr<Family>> families_;
};

// Of a part by where its labels stand: its own key, and its plans to the last bit.
std::string placed_key(const std::string& own_key, const Plans& plans);

}  // namespace platewright
