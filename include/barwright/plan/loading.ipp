// barwright/plan/loading.ipp - the bodies of loading.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <optional>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/plates/dumbbells.hpp"
#include "barwright/plates/loading.hpp"
#include "barwright/plates/ramp.hpp"
#include "barwright/plates/room.hpp"
#include "barwright/training/warm_up.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline Room without_plates_below(const Room& room, Mass least) {
  Plates plates;
  for (const Plate& plate : room.plates()) {
    if (plate.mass().mass() >= least * (1.0 - 1e-9)) plates.add(plate);
  }
  return plates.size() > 0 ? Room(room.bar(), plates, room.collars()) : room;
}

inline Mass handy_load(const Room& room, Mass wanted, Mass leeway) {
  constexpr int most_looked_at = 16;
  Loading best = room.nearest(wanted);
  const auto away = [&](const Loading& loading) {
    return std::fabs((loading.total() - wanted).kg());
  };
  auto other = room.at_least(wanted - leeway);
  for (int i = 0; i < most_looked_at && other && other->total() <= wanted + leeway; ++i) {
    const std::size_t plates = other->plates().size();
    const std::size_t fewest = best.plates().size();
    if (plates < fewest || (plates == fewest && away(*other) < away(best))) best = *other;
    other = room.at_least(other->total() * (1.0 + 1e-9));
  }
  return best.total();
}

inline std::optional<LoadedWith> Equipment::at_most(Mass load) const {
  if (body_) return nearest_belt(load, -1);
  if (rack_) return all_of_if(rack_->at_most(load / parts()));
  return on_if(room_.at_most(load));
}

inline std::optional<LoadedWith> Equipment::at_least(Mass load) const {
  if (body_) return nearest_belt(load, 1);
  if (rack_) return all_of_if(rack_->at_least(load / parts()));
  return on_if(room_.at_least(load));
}

inline std::vector<MarkedMass> Equipment::single_plates() const {
  constexpr int most_of_a_kind = 8;
  std::vector<MarkedMass> plates;
  for (const Plate& plate : room_.plates()) {
    if (plate.mass().unit() != room_.bar().mass.unit()) continue;
    plates.insert(plates.end(),
                  static_cast<std::size_t>(std::min(2 * plate.per_side(), most_of_a_kind)),
                  plate.mass());
  }
  std::sort(plates.begin(), plates.end(), [](MarkedMass a, MarkedMass b) { return b < a; });
  return plates;
}

inline LoadedWith Equipment::hung(Mass added) const {
  Belt belt;
  for (const MarkedMass plate : single_plates()) {
    if (belt.added + plate.mass() > added + Mass::from_kg(1e-9)) continue;
    belt.plates.push_back(plate);
    belt.added += plate.mass();
  }
  return {.load = *body_ + belt.added, .belt = belt};
}

inline std::optional<LoadedWith> Equipment::nearest_belt(Mass load, int step) const {
  const Mass added = load - *body_;
  const Mass tolerance = Mass::from_kg(1e-9);
  if (added < -tolerance) return step < 0 ? std::nullopt : std::optional(hung(Mass{}));
  const LoadedWith below = hung(std::max(added, Mass{}) + tolerance);
  if (step < 0 || below.load >= load - tolerance) return below;
  const auto plates = single_plates();
  if (plates.empty()) return std::nullopt;
  // In steps of the smallest plate until one is no lighter.
  const Mass all = std::accumulate(plates.begin(), plates.end(), Mass{},
                                   [](Mass sum, MarkedMass plate) { return sum + plate.mass(); });
  for (Mass more = added; more < all + plates.back().mass(); more += plates.back().mass()) {
    const LoadedWith other = hung(more + plates.back().mass());
    if (other.load >= load - tolerance) return other;
  }
  return std::nullopt;
}

inline std::vector<PlannedSet> Equipment::with_belt(const LoadedWith& work, Reps reps,
                                                    int sets) const {
  std::vector<PlannedSet> planned;
  const auto add = [&](double share, int count) {
    const LoadedWith with = hung(work.belt->added * share);
    if (!(with.load < work.load) || (!planned.empty() && !(with.load > planned.back().with.load)))
      return;
    planned.push_back({.reps = Reps(count), .with = with});
  };
  if (work.belt->added > Mass{}) add(0.0, 5);
  if (work.belt->added > Mass::from_kg(10)) add(0.5, 3);
  if (work.belt->added > Mass::from_kg(20)) add(0.8, 1);
  planned.push_back({.is_work = true, .sets = sets, .reps = reps, .with = work});
  return planned;
}

inline std::vector<PlannedSet> Equipment::without_bar(const LoadedWith& work, Reps reps,
                                                      int sets) const {
  const MarkedMass heaviest = work.pin ? *work.pin : *work.dumbbell;
  std::vector<PlannedSet> planned;
  MarkedMass before;
  const auto nearest = [&](Mass load) { return rack_->nearest(load).mass(); };
  for (const WarmUpSet& set : dumbbell_warm_up(heaviest.mass(), nearest)) {
    const MarkedMass each = rack_->nearest(set.load);
    if (each >= heaviest || each <= before) continue;
    planned.push_back({.reps = set.reps, .with = all_of(each)});
    before = each;
  }
  planned.push_back({.is_work = true, .sets = sets, .reps = reps, .with = work});
  return planned;
}

inline std::vector<PlannedSet> Equipment::with_bar(const LoadedWith& work, Reps reps,
                                                   int sets) const {
  std::vector<Mass> loads;
  std::vector<Reps> counts;
  const Room large = without_plates_below(room_, rule_.least_in_warm_ups);
  for (const WarmUpSet& set :
       warm_up(room_.empty_bar().total(), work.load, reps,
               family_ == LiftFamily::deadlift ? BarStart::floor : BarStart::rack,
               [&](Mass load) { return handy_load(large, load, work.load * rule_.leeway); })) {
    loads.push_back(set.load);
    counts.push_back(set.reps);
  }
  loads.push_back(work.load);
  counts.push_back(reps);
  const Ramp ramp = practical_ramp(room_, loads, 0.0);
  std::vector<PlannedSet> planned;
  for (std::size_t i = 0; i < ramp.steps.size(); ++i) {
    const RampStep& step = ramp.steps[i];
    const bool is_work = i + 1 == ramp.steps.size();
    planned.push_back({.is_work = is_work,
                       .sets = is_work ? sets : 1,
                       .reps = counts[i],
                       .with = on(step.loading),
                       .taken_off = step.taken_off,
                       .put_on = step.put_on});
  }
  return planned;
}

}  // namespace barwright::inline BARWRIGHT_ABI
