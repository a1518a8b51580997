package org.yardfall.elevation;

import java.util.List;
import java.util.stream.Collectors;

/** Writes point numbers as a list that stays readable. */
final class PointNumbers {

  private static final int MOST = 12;

  private PointNumbers() {}

  static String of(List<Shot> shots) {
    return list(shots.stream().map(Shot::id).toList());
  }

  static String list(List<String> ids) {
    String named = ids.stream().limit(MOST).collect(Collectors.joining(", "));
    return ids.size() > MOST ? named + " and " + (ids.size() - MOST) + " more" : named;
  }
}
