package org.yardfall.sheet;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.yardfall.layer.Result;
import org.yardfall.water.StandingWater;
import org.yardfall.water.StandingWater.Pond;

/** What stands deeper while every inlet is blocked. */
final class BlockedWater {

  /** A difference of level in metres that is worth drawing. */
  private static final double LEAST_M = 0.005;

  private BlockedWater() {}

  /** The ponds that stand deeper then, or only then. */
  static List<Pond> deeper(Result result) {
    Map<String, Pond> open =
        ponds(result.standing()).stream()
            .collect(Collectors.toMap(Pond::lowSpotId, Function.identity(), (a, b) -> a));
    return ponds(result.blocked()).stream()
        .filter(
            pond ->
                !open.containsKey(pond.lowSpotId())
                    || pond.levelM() > open.get(pond.lowSpotId()).levelM() + LEAST_M)
        .toList();
  }

  private static List<Pond> ponds(Optional<StandingWater> water) {
    return water.map(StandingWater::ponds).orElse(List.of());
  }
}
