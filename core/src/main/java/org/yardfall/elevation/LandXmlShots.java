package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;

/**
 * Shots and surface of a LandXML file. One surface is taken, never a blend of several; where the
 * file holds none, its points are the shots.
 */
final class LandXmlShots {

  /** Surfaces of one place whose elevations lie this far apart cannot both be its ground. */
  private static final double IRRECONCILABLE_M = 15;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final LandXmlFile file;
  private final String name;
  private final ExpectedPlace place;
  private final double planM;
  private final double heightM;
  private final boolean eastingFirst;
  private final List<Assumption> assumptions = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();
  private final List<String> description = new ArrayList<>();

  LandXmlShots(LandXmlFile file, String columns, ShotUnits units, ExpectedPlace place) {
    this.file = file;
    this.name = file.file().getFileName().toString();
    this.place = place;
    this.planM = unit("elevation.unit", file.linearUnit(), units.planM(), units.usualM());
    this.heightM =
        unit(
            "elevation.vertical-unit",
            file.elevationUnit().or(file::linearUnit),
            units.heightM().isPresent() ? units.heightM() : units.planM(),
            planM);
    ShotColumns order = columns == null ? null : ShotColumns.ofOrder(columns);
    this.eastingFirst = order != null && order.easting() < order.northing();
    description.add(
        String.format(
            Locale.ROOT,
            "%s: LandXML, %d points, %d surfaces, places in %s, elevations in %s%s",
            name,
            file.points().size(),
            file.surfaces().size(),
            VerticalUnit.ofMetres(planM, "").name(),
            VerticalUnit.ofMetres(heightM, "").name(),
            file.epsgCode().isEmpty() ? ", no CRS" : ", EPSG:" + file.epsgCode()));
  }

  private double unit(
      String key, Optional<VerticalUnit> own, OptionalDouble stated, double usualM) {
    if (stated.isPresent()) {
      double metres = stated.getAsDouble();
      VerticalUnit.overruled(name, own, "its unit", metres).ifPresent(warnings::add);
      return metres;
    }
    if (own.isPresent()) {
      return own.get().metres();
    }
    assumptions.add(
        new Assumption(
            key, VerticalUnit.ofMetres(usualM, "").name(), name + " does not name its unit"));
    return usualM;
  }

  /** The shots, with the surface asked for; null asks for the only one. */
  Shots shots(String surfaceName) {
    Optional<LandXmlFile.Surface> surface = surface(surfaceName);
    List<Shot> shots = new ArrayList<>();
    file.points().forEach(point -> shots.add(shot(point)));
    List<LineString> breaklines = new ArrayList<>();
    Optional<Tin> tin = Optional.empty();
    if (surface.isPresent() && !surface.get().faces().isEmpty()) {
      tin = Optional.of(tin(surface.get()));
    } else if (surface.isPresent()) {
      shots.clear();
      surface.get().vertices().forEach(point -> shots.add(shot(point)));
      surface.get().dataPoints().forEach(point -> shots.add(shot(point)));
      surface.get().breaklines().forEach(line -> line(line).ifPresent(breaklines::add));
    }
    checkOrder(shots, tin);
    List<Shot> measured = measured(shots);
    boolean needed = tin.isEmpty();
    List<Shot> kept =
        needed || measured.stream().anyMatch(shot -> shot.z() != 0)
            ? new ShotSieve(name, place, warnings).keep(measured)
            : List.of();
    return new Shots(
        name, kept, breaklines, tin, description, UsualAccuracy.ROD, assumptions, warnings);
  }

  private List<Shot> measured(List<Shot> shots) {
    List<Shot> without =
        shots.stream().filter(s -> Double.isNaN(s.z()) || ShotSieve.isVoidMark(s.z())).toList();
    if (!without.isEmpty()) {
      warnings.add(name + ": left out for want of an elevation: " + PointNumbers.of(without));
    }
    return shots.stream()
        .filter(s -> !Double.isNaN(s.z()) && !ShotSieve.isVoidMark(s.z()))
        .toList();
  }

  private Optional<LandXmlFile.Surface> surface(String asked) {
    List<LandXmlFile.Surface> surfaces =
        file.surfaces().stream()
            .filter(s -> !s.vertices().isEmpty() || !s.dataPoints().isEmpty())
            .toList();
    for (LandXmlFile.Surface surface : surfaces) {
      double[] range = range(surface);
      description.add(
          String.format(
              Locale.ROOT,
              "surface %s: %d points, %d faces, elevations %.2f to %.2f m",
              surface.name(),
              surface.vertices().size() + surface.dataPoints().size(),
              surface.faces().size(),
              range[0],
              range[1]));
    }
    String quarrel = quarrel(surfaces);
    String names =
        surfaces.stream().map(LandXmlFile.Surface::name).collect(Collectors.joining(", "));
    if (asked != null) {
      if (!quarrel.isEmpty()) {
        warnings.add(name + ": " + quarrel + "; only " + asked + " is used");
      }
      return Optional.of(
          surfaces.stream()
              .filter(s -> s.name().equalsIgnoreCase(asked))
              .findFirst()
              .orElseThrow(
                  () ->
                      bad(
                          "it holds no surface '" + asked + "'",
                          surfaces.isEmpty()
                              ? "leave elevation.surface out"
                              : "it holds " + names)));
    }
    if (surfaces.size() > 1) {
      throw bad(
          "it holds several surfaces (" + names + ")" + (quarrel.isEmpty() ? "" : "; " + quarrel),
          "name the one that is the ground in elevation.surface");
    }
    return surfaces.stream().findFirst();
  }

  /** What to say where two surfaces' elevations can't both be right; empty where they can. */
  private String quarrel(List<LandXmlFile.Surface> surfaces) {
    for (int i = 0; i < surfaces.size(); i++) {
      for (int j = i + 1; j < surfaces.size(); j++) {
        double[] a = range(surfaces.get(i));
        double[] b = range(surfaces.get(j));
        if (a[0] - b[1] > IRRECONCILABLE_M || b[0] - a[1] > IRRECONCILABLE_M) {
          return String.format(
              Locale.ROOT,
              "%s (%.1f to %.1f m) and %s (%.1f to %.1f m) cannot both be ground of one place",
              surfaces.get(i).name(),
              a[0],
              a[1],
              surfaces.get(j).name(),
              b[0],
              b[1]);
        }
      }
    }
    return "";
  }

  private double[] range(LandXmlFile.Surface surface) {
    List<LandXmlFile.Point> points =
        surface.vertices().isEmpty() ? surface.dataPoints() : surface.vertices();
    double low = points.stream().mapToDouble(p -> p.neh()[2]).min().orElse(Double.NaN);
    double high = points.stream().mapToDouble(p -> p.neh()[2]).max().orElse(Double.NaN);
    return new double[] {low * heightM, high * heightM};
  }

  private Coordinate coordinate(double[] neh) {
    return new Coordinate(
        planM * neh[eastingFirst ? 0 : 1], planM * neh[eastingFirst ? 1 : 0], heightM * neh[2]);
  }

  private Shot shot(LandXmlFile.Point point) {
    Coordinate at = coordinate(point.neh());
    double z = ShotSieve.isVoidMark(point.neh()[2]) ? Double.NaN : at.getZ();
    return new Shot(point.id(), at.x, at.y, z, point.code());
  }

  private Optional<LineString> line(List<double[]> points) {
    return points.size() < 2
        ? Optional.empty()
        : Optional.of(
            FACTORY.createLineString(
                points.stream().map(this::coordinate).toArray(Coordinate[]::new)));
  }

  private Tin tin(LandXmlFile.Surface surface) {
    int n = surface.vertices().size();
    double[] x = new double[n];
    double[] y = new double[n];
    double[] z = new double[n];
    for (int i = 0; i < n; i++) {
      Coordinate at = coordinate(surface.vertices().get(i).neh());
      x[i] = at.x;
      y[i] = at.y;
      z[i] = at.getZ();
    }
    int[] corners = surface.faces().stream().flatMapToInt(java.util.Arrays::stream).toArray();
    return new Tin(x, y, z, corners);
  }

  private void checkOrder(List<Shot> shots, Optional<Tin> tin) {
    double[] xy =
        tin.isPresent()
            ? interleaved(tin.get())
            : shots.stream()
                .flatMapToDouble(s -> java.util.stream.DoubleStream.of(s.x(), s.y()))
                .toArray();
    if (place.known() && place.share(xy, 1, false) < 0.5 && place.share(xy, 1, true) >= 0.5) {
      throw bad(
          "northing and easting look swapped: LandXML writes northing first, and read so it lies"
              + " off "
              + place.name(),
          "give elevation.columns: " + (eastingFirst ? "NEZ" : "ENZ"));
    }
  }

  private static double[] interleaved(Tin tin) {
    double[] xy = new double[2 * tin.x().length];
    for (int i = 0; i < tin.x().length; i++) {
      xy[2 * i] = tin.x()[i];
      xy[2 * i + 1] = tin.y()[i];
    }
    return xy;
  }

  private BadInputException bad(String what, String mend) {
    return new BadInputException(file.file().toString(), what, mend);
  }
}
