// barwright/plan/loading.ipp - the bodies of loading.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <cstddef>
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

inline std::vector<PlannedSet> Equipment::with_dumbbells(const LoadedWith& work, Reps reps,
                                                         int sets) const {
  std::vector<PlannedSet> planned;
  MarkedMass before;
  const auto nearest = [&](Mass load) { return rack_->nearest(load).mass(); };
  for (const WarmUpSet& set : dumbbell_warm_up(work.dumbbell->mass(), nearest)) {
    const MarkedMass each = rack_->nearest(set.load);
    if (each >= *work.dumbbell || each <= before) continue;
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
