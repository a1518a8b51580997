package org.yardfall.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.LineDesign;
import org.yardfall.drain.StretchDesign;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.layer.Result;
import org.yardfall.pipe.HydraulicGradeLine;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.Crossing;
import org.yardfall.site.Obstacle;

/**
 * What a profile of one line of a drain shows.
 *
 * @param name {@code R1 main line}, {@code R1 branch 1} …
 * @param line the line
 * @param ground ground by station: the stations' own, and the terrain's in between
 * @param water the water at the peak by station; empty without a design
 * @param marks what it passes
 * @param outsideM outside diameter of the pipe by stretch between two stations, in metres
 */
record ProfileLine(
    String name,
    DrainLine line,
    List<At> ground,
    List<At> water,
    List<Mark> marks,
    List<Double> outsideM) {

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  /** The water's levels are calculated every tenth of a metre; a drawing needs fewer. */
  private static final double WATER_STEP_M = 0.5;

  /**
   * A level at a station.
   *
   * @param stationM station in metres
   * @param levelM elevation in metres
   */
  record At(double stationM, double levelM) {}

  /**
   * Something that the line passes.
   *
   * @param fromM station at which it begins in metres
   * @param toM station at which it ends in metres
   * @param label what it is
   * @param bottomM elevation of its underside in metres, where known
   */
  record Mark(double fromM, double toM, String label, OptionalDouble bottomM) {}

  /** The main line and the branches of a route. */
  static List<ProfileLine> of(Result result, Route route) {
    List<DrainLine> lines = new ArrayList<>(List.of(route.main()));
    route.branches().forEach(branch -> lines.add(branch.line()));
    List<LineDesign> designs =
        result.designs().stream()
            .filter(design -> design.routeId().equals(route.id()))
            .findFirst()
            .map(DrainDesign::lines)
            .orElse(List.of());
    List<ProfileLine> profiles = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      String name = route.id() + (i == 0 ? " main line" : " branch " + i);
      LineDesign design = i < designs.size() ? designs.get(i) : null;
      profiles.add(of(result, name, lines.get(i), design));
    }
    return profiles;
  }

  private static ProfileLine of(Result result, String name, DrainLine line, LineDesign design) {
    return new ProfileLine(
        name,
        line,
        ground(result.terrain().ground(), line),
        design == null ? List.of() : water(design.hydraulic()),
        marks(result, line),
        outside(line, design, result.site().drain().pipeOutsideM()));
  }

  private static List<At> ground(ElevationGrid ground, DrainLine line) {
    List<At> profile = new ArrayList<>();
    List<Station> stations = line.stations();
    for (int i = 0; i < stations.size(); i++) {
      Station up = stations.get(i);
      profile.add(new At(up.stationM(), up.groundM()));
      if (i + 1 < stations.size()) {
        Station down = stations.get(i + 1);
        int steps = (int) ((down.stationM() - up.stationM()) / ground.frame().cellM());
        for (int s = 1; s < steps; s++) {
          double share = (double) s / steps;
          double level =
              ground.bilinear(
                  up.x() + share * (down.x() - up.x()), up.y() + share * (down.y() - up.y()));
          if (!Double.isNaN(level)) {
            profile.add(new At(up.stationM() + share * (down.stationM() - up.stationM()), level));
          }
        }
      }
    }
    return List.copyOf(profile);
  }

  private static List<At> water(HydraulicGradeLine line) {
    List<At> levels = new ArrayList<>();
    List<HydraulicGradeLine.Point> points = line.points();
    double last = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < points.size(); i++) {
      double station = points.get(i).node().stationM();
      if (station - last >= WATER_STEP_M || i == points.size() - 1) {
        levels.add(new At(station, points.get(i).levelM()));
        last = station;
      }
    }
    return List.copyOf(levels);
  }

  private static List<Mark> marks(Result result, DrainLine line) {
    Geometry path = GEOMETRIES.createLineString(line.vertices().toArray(Coordinate[]::new));
    LengthIndexedLine index = new LengthIndexedLine(path);
    List<Mark> marks = new ArrayList<>();
    for (Crossing crossing : result.site().crossings()) {
      add(marks, index, path, crossing.outline(), crossing.id(), OptionalDouble.empty());
    }
    for (Obstacle obstacle : result.site().obstacles()) {
      add(marks, index, path, obstacle.shape(), obstacle.id(), obstacle.bottomM());
    }
    marks.sort(Comparator.comparingDouble(Mark::fromM).thenComparing(Mark::label));
    return List.copyOf(marks);
  }

  private static void add(
      List<Mark> marks,
      LengthIndexedLine index,
      Geometry path,
      Geometry shape,
      String label,
      OptionalDouble bottomM) {
    Geometry met = path.intersection(shape);
    for (int i = 0; i < met.getNumGeometries(); i++) {
      Geometry piece = met.getGeometryN(i);
      if (piece.isEmpty()) {
        continue;
      }
      Coordinate[] ends = piece.getCoordinates();
      double a = index.project(ends[0]);
      double b = index.project(ends[ends.length - 1]);
      marks.add(new Mark(Math.min(a, b), Math.max(a, b), label, bottomM));
    }
  }

  private static List<Double> outside(DrainLine line, LineDesign design, double planned) {
    List<Double> outside = new ArrayList<>();
    for (int i = 0; i + 1 < line.stations().size(); i++) {
      double middle =
          (line.stations().get(i).stationM() + line.stations().get(i + 1).stationM()) / 2;
      outside.add(
          design == null
              ? planned
              : design.stretches().stream()
                  .filter(s -> s.fromM() <= middle && middle <= s.toM())
                  .mapToDouble((StretchDesign s) -> s.pipe().outsideM())
                  .findFirst()
                  .orElse(planned));
    }
    return List.copyOf(outside);
  }

  /** Lowest level shown in metres. */
  double lowestM() {
    return line.stations().stream().mapToDouble(Station::invertM).min().orElseThrow();
  }

  /** Highest level shown in metres. */
  double highestM() {
    double ground = this.ground.stream().mapToDouble(At::levelM).max().orElseThrow();
    return Math.max(ground, water.stream().mapToDouble(At::levelM).max().orElse(ground));
  }
}
