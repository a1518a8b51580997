package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import org.yardfall.site.BadInputException;

/**
 * Parts shots that can be what they say from those that cannot: elevations of 0 among others far
 * from it, feet among metres, places far from all others, point numbers given twice. What is left
 * out is said with its point number.
 */
final class ShotSieve {

  /** Numbers that instruments and programs write where no elevation is known. */
  private static final double[] VOID_MARKS = {-9999, -99_999, -999_999, -32_768, -32_767};

  /** Elevations of 0 are a mark where the others are at least this far from it. */
  private static final double FAR_FROM_ZERO_M = 5;

  /** A shot this many times the others' reach away from their middle is not of this survey. */
  private static final double FAR_AWAY = 10;

  private static final double SAME_PLACE_M = 0.001;

  /** Above this share of shots in another unit a file is mixed, not one with slips. */
  private static final double MOST_OTHER_UNIT = 0.1;

  private final String name;
  private final ExpectedPlace place;
  private final List<String> warnings;

  ShotSieve(String name, ExpectedPlace place, List<String> warnings) {
    this.name = name;
    this.place = place;
    this.warnings = warnings;
  }

  /** Whether a stored elevation stands for none. */
  static boolean isVoidMark(double stored) {
    return Arrays.stream(VOID_MARKS).anyMatch(mark -> mark == stored) || Math.abs(stored) > 1e9;
  }

  /**
   * The shots to keep, in their order.
   *
   * @throws BadInputException where none is left or elevations are no ground's
   */
  List<Shot> keep(List<Shot> shots) {
    List<Shot> measured = withoutZeros(shots);
    List<Shot> oneUnit =
        inOneUnit(
            inOneUnit(measured, "places", shot -> Math.hypot(shot.x(), shot.y())),
            "elevations",
            Shot::z);
    List<Shot> kept = withoutDoubles(withoutStrays(oneUnit));
    if (kept.isEmpty()) {
      throw new BadInputException(name, "it holds no shot with an elevation", "give one that does");
    }
    if (place.known() && kept.stream().noneMatch(s -> place.contains(s.x(), s.y()))) {
      warnings.add(
          name + ": none of its shots lies near " + place.name() + "; check its unit and CRS");
    }
    double highest = kept.stream().mapToDouble(Shot::z).max().orElseThrow();
    double lowest = kept.stream().mapToDouble(Shot::z).min().orElseThrow();
    if (!LandRange.holds(lowest, highest)) {
      throw new BadInputException(
          name,
          String.format(
              Locale.ROOT,
              "its elevations run from %.5g to %.5g m, which no ground does",
              lowest,
              highest),
          "check elevation.columns and elevation.vertical-unit");
    }
    return kept;
  }

  private List<Shot> withoutZeros(List<Shot> shots) {
    List<Shot> zeros = shots.stream().filter(shot -> shot.z() == 0).toList();
    if (zeros.isEmpty()) {
      return shots;
    }
    if (zeros.size() == shots.size()) {
      throw new BadInputException(name, "every elevation in it is 0", "give shots with elevations");
    }
    boolean amongOthers =
        shots.stream().anyMatch(shot -> shot.z() != 0 && Math.abs(shot.z()) < FAR_FROM_ZERO_M);
    if (amongOthers) {
      return shots;
    }
    warnings.add(
        name
            + ": elevation 0 among others far from it is taken as not measured; left out: "
            + PointNumbers.of(zeros));
    return shots.stream().filter(shot -> shot.z() != 0).toList();
  }

  /** Few shots in another unit are left out; of many it cannot be told which are right. */
  private List<Shot> inOneUnit(List<Shot> shots, String what, ToDoubleFunction<Shot> size) {
    List<Shot> other = UnitMix.find(shots, size);
    if (other.size() > MOST_OTHER_UNIT * shots.size()) {
      throw new BadInputException(
          name,
          String.format(
              Locale.ROOT,
              "its %s are partly in feet, partly in metres: %d of %d in another unit than the rest"
                  + " (%s)",
              what,
              other.size(),
              shots.size(),
              PointNumbers.of(other)),
          "give all shots in one unit");
    }
    say("feet among metres or metres among feet, as their " + what + " look; left out: ", other);
    Set<Shot> gone = new HashSet<>(other);
    return gone.isEmpty() ? shots : shots.stream().filter(s -> !gone.contains(s)).toList();
  }

  private List<Shot> withoutStrays(List<Shot> shots) {
    if (shots.size() < 4) {
      return shots;
    }
    double midX = median(shots, Shot::x);
    double midY = median(shots, Shot::y);
    double[] reach =
        shots.stream().mapToDouble(s -> Math.hypot(s.x() - midX, s.y() - midY)).sorted().toArray();
    double limit = FAR_AWAY * Math.max(reach[(int) (0.7 * (reach.length - 1))], 1);
    List<Shot> kept = new ArrayList<>();
    List<Shot> swapped = new ArrayList<>();
    List<Shot> strays = new ArrayList<>();
    for (Shot shot : shots) {
      if (Math.hypot(shot.x() - midX, shot.y() - midY) <= limit) {
        kept.add(shot);
      } else if (Math.hypot(shot.y() - midX, shot.x() - midY) <= limit) {
        swapped.add(shot);
      } else {
        strays.add(shot);
      }
    }
    say("northing and easting look swapped; left out: ", swapped);
    say("far from all others; left out: ", strays);
    return kept;
  }

  private List<Shot> withoutDoubles(List<Shot> shots) {
    Map<String, Shot> byId = new HashMap<>();
    List<Shot> kept = new ArrayList<>();
    List<Shot> same = new ArrayList<>();
    List<Shot> differing = new ArrayList<>();
    for (Shot shot : shots) {
      Shot earlier = byId.putIfAbsent(shot.id(), shot);
      if (earlier == null) {
        kept.add(shot);
      } else if (earlier.coordinate().distance3D(shot.coordinate()) < SAME_PLACE_M) {
        same.add(shot);
      } else {
        differing.add(shot);
        kept.add(shot);
      }
    }
    say("given twice alike; used once: ", same);
    say("point numbers used for more than one place; all kept: ", differing);
    return kept;
  }

  private void say(String what, List<Shot> shots) {
    if (!shots.isEmpty()) {
      warnings.add(name + ": " + what + PointNumbers.of(shots));
    }
  }

  private static double median(List<Shot> shots, ToDoubleFunction<Shot> of) {
    double[] values = shots.stream().mapToDouble(of).sorted().toArray();
    return values[values.length / 2];
  }
}
