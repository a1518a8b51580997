package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.yardfall.site.Outlet;

/**
 * Holds a laid pipe against frost. Only water that stays in a pipe freezes in it: in a belly, or at
 * an end that cannot empty. Such a place is told where it has less cover than the ground freezes
 * deep, and also where that depth is not known; nothing is ever said to be safe from frost.
 *
 * @param frostDepthM depth in metres to which the ground freezes, where known
 * @param outlet where the main line ends, where known
 */
public record Winter(OptionalDouble frostDepthM, Optional<Outlet> outlet) {

  /** Neither frost nor outlet known. */
  public static final Winter UNKNOWN = new Winter(OptionalDouble.empty(), Optional.empty());

  /**
   * A place where the pipe as laid keeps water that frost may reach.
   *
   * @param line the line it lies in
   * @param why why water stays there
   * @param fromM station where it begins in metres
   * @param toM station where it ends in metres
   * @param coverM least cover of the pipe as laid there, in metres
   */
  public record Place(String line, String why, double fromM, double toM, double coverM) {}

  /**
   * The places of a laid pipe, bellies first.
   *
   * @param shots the shots that count, by line and station
   * @param lengthM length of the main line in metres
   */
  List<Place> places(
      List<ProofShot> shots, List<Belly> bellies, ProofLimits limits, double lengthM) {
    List<Place> places = new ArrayList<>();
    for (Belly belly : bellies) {
      double cover =
          shots.stream()
              .filter(s -> s.line().equals(belly.line()))
              .filter(s -> s.stationM() >= belly.fromM() && s.stationM() <= belly.toM())
              .mapToDouble(ProofShot::coverM)
              .min()
              .orElse(Double.POSITIVE_INFINITY);
      if (belly.depthM() > limits.noiseM() && reaches(cover)) {
        places.add(new Place(belly.line(), "it is a belly", belly.fromM(), belly.toM(), cover));
      }
    }
    shots.stream()
        .filter(s -> s.line().equals("main") && lengthM - s.stationM() <= limits.gapM())
        .reduce((upper, lower) -> lower)
        .filter(end -> reaches(end.coverM()))
        .ifPresent(
            end ->
                outlet
                    .flatMap(o -> o.keepsWaterIn(end.builtM()))
                    .ifPresent(
                        why ->
                            places.add(
                                new Place("main", why, end.stationM(), lengthM, end.coverM()))));
    return places;
  }

  private boolean reaches(double coverM) {
    return coverM < frostDepthM.orElse(Double.POSITIVE_INFINITY);
  }

  /** A place in a sentence. */
  String sentence(Place place, FieldUnits units) {
    String where =
        place.toM() - place.fromM() < 0.01
            ? "at station " + units.station(place.fromM())
            : "from station " + units.station(place.fromM()) + " to " + units.station(place.toM());
    String keeps =
        "Water stays in %s %s (%s) under %s of cover"
            .formatted(
                Prover.spoken(place.line()), where, place.why(), units.words(place.coverM()));
    return frostDepthM.isEmpty()
        ? keeps + "; the local frost depth was not given, so whether it freezes was not checked."
        : "%s, where the ground freezes %s deep: it freezes shut there and stops until it thaws."
            .formatted(keeps, units.words(frostDepthM.getAsDouble()));
  }
}
