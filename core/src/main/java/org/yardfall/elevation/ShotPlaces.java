package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * One shot for each place: where several stand within a tolerance of each other, the first with
 * their mean elevation.
 */
final class ShotPlaces {

  /** Shots in one place that differ by more are said. */
  private static final double TOLERABLE_GAP_M = 0.05;

  private final double toleranceM;
  private final Map<Long, List<Integer>> buckets = new HashMap<>();
  private final List<List<Shot>> places = new ArrayList<>();
  private final List<Shot> apart = new ArrayList<>();
  private final Map<Shot, Shot> placed = new HashMap<>();
  private final List<String> differing = new ArrayList<>();

  private ShotPlaces(double toleranceM) {
    this.toleranceM = toleranceM;
  }

  /** The places of some shots, in the shots' order. */
  static ShotPlaces of(List<Shot> shots, double toleranceM) {
    ShotPlaces found = new ShotPlaces(toleranceM);
    shots.forEach(found::put);
    found.places.forEach(found::settle);
    return found;
  }

  private void put(Shot shot) {
    long col = (long) Math.floor(shot.x() / toleranceM);
    long row = (long) Math.floor(shot.y() / toleranceM);
    for (long c = col - 1; c <= col + 1; c++) {
      for (long r = row - 1; r <= row + 1; r++) {
        for (int place : buckets.getOrDefault(bucket(c, r), List.of())) {
          Shot first = places.get(place).get(0);
          if (Math.hypot(first.x() - shot.x(), first.y() - shot.y()) < toleranceM) {
            places.get(place).add(shot);
            return;
          }
        }
      }
    }
    buckets.computeIfAbsent(bucket(col, row), k -> new ArrayList<>(1)).add(places.size());
    places.add(new ArrayList<>(List.of(shot)));
  }

  private static long bucket(long col, long row) {
    return col * 0x9E3779B97F4A7C15L + row;
  }

  private void settle(List<Shot> place) {
    Shot first = place.get(0);
    double mean = place.stream().mapToDouble(Shot::z).average().orElseThrow();
    double high = place.stream().mapToDouble(Shot::z).max().orElseThrow();
    double low = place.stream().mapToDouble(Shot::z).min().orElseThrow();
    if (high - low > TOLERABLE_GAP_M) {
      differing.add(
          String.format(
              Locale.ROOT,
              "%s (%.2f m)",
              place.stream().map(Shot::id).collect(Collectors.joining(" and ")),
              high - low));
    }
    Shot one =
        place.size() == 1 ? first : new Shot(first.id(), first.x(), first.y(), mean, first.code());
    apart.add(one);
    place.forEach(shot -> placed.put(shot, one));
  }

  /** One shot a place. */
  List<Shot> apart() {
    return apart;
  }

  /** For every shot the one that stands for its place. */
  Map<Shot, Shot> placed() {
    return placed;
  }

  /** Shots in one place that differ, in words, where there are any. */
  Optional<String> warning(String source) {
    return differing.isEmpty()
        ? Optional.empty()
        : Optional.of(
            source
                + ": shots in one place with different elevations, their mean is used: "
                + PointNumbers.list(differing));
  }
}
