package org.yardfall.elevation;

import com.github.mreutegg.laszip4j.CloseablePointIterable;
import com.github.mreutegg.laszip4j.LASPoint;
import com.github.mreutegg.laszip4j.LASReader;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.WorkingCrs;

/**
 * The ground points (class 2) of a LAS or LAZ file as shots. Where the file holds more points than
 * a yard needs, one is kept of each square: see {@link PointThinner}.
 */
final class PointCloud {

  /** The class of ground in every version of the ASPRS LAS Specification. */
  private static final int GROUND = 2;

  /** In the older point formats the class shares its byte with three flags. */
  private static final int CLASS_BITS = 0x1F;

  private final Path file;
  private final String name;
  private final LasHeader header;
  private final Map<Integer, Integer> classes = new TreeMap<>();
  private final List<Assumption> assumptions = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();

  private PointCloud(Path file) {
    this.file = file;
    this.name = file.getFileName().toString();
    this.header = LasHeader.read(file);
  }

  /**
   * The CRS of a file, for use as the working CRS; the UTM zone of its middle where that has angles
   * or does not measure lengths; empty where it names none.
   */
  static Optional<WorkingCrs> planeOf(Path file) {
    LasHeader header = LasHeader.read(file);
    Optional<RasterCrs> crs = header.crs();
    if (crs.isEmpty()) {
      return Optional.empty();
    }
    Coordinate middle = middle(header);
    return crs.get()
        .asWorkingCrs(middle.x, middle.y)
        .or(
            () -> {
              Coordinate degrees =
                  PlaneTransform.between(crs.get().definition(), CrsLookup.decode("EPSG:4326"))
                      .apply(middle);
              return Optional.of(CrsLookup.utm(degrees.x, degrees.y));
            });
  }

  private static Coordinate middle(LasHeader header) {
    double[] bounds = header.bounds();
    return new Coordinate((bounds[0] + bounds[2]) / 2, (bounds[1] + bounds[3]) / 2);
  }

  /**
   * Reads a file's ground points. Takes time in proportion to its points, memory to those kept.
   *
   * @throws BadInputException where it is damaged, holds no ground points or nothing near the place
   */
  static Shots read(Path file, ElevationInput input, WorkingCrs crs, ExpectedPlace place) {
    return new PointCloud(file).shots(input, crs, place);
  }

  private Shots shots(ElevationInput input, WorkingCrs crs, ExpectedPlace place) {
    if (header.points() == 0) {
      throw bad("it holds no points", "give one with ground points");
    }
    ShotUnits units = ShotUnits.of(input, crs);
    Optional<ShotPlane> plane = plane(input, crs);
    double planM = plane.map(ShotPlane::unitM).orElse(units.planOrUsualM());
    if (plane.isPresent() && units.planM().isPresent() && units.planM().getAsDouble() != planM) {
      warnings.add(
          name + ": the stated unit is not used for its places: its CRS is " + plane.get().words());
    }
    if (plane.isEmpty()) {
      assumptions.add(
          new Assumption(
              "CRS of " + name,
              crs.name() + ", in " + VerticalUnit.ofMetres(planM, "").name(),
              "it names none that is understood; taken to be the working CRS"));
    }
    double heightM = heightM(units, planM);
    PointThinner thinner = new PointThinner(header.points(), extent(plane, planM), place);
    eachGroundPoint(
        (number, point) -> {
          double x = header.value(0, point.getX());
          double y = header.value(1, point.getY());
          Coordinate at =
              plane.map(p -> p.place(x, y)).orElse(new Coordinate(planM * x, planM * y));
          double z = heightM * header.value(2, point.getZ());
          thinner.add(number, at.x, at.y, z);
        });
    if (thinner.seen() == 0) {
      throw bad(
          "none of its points is classified as ground (class 2); its classes are "
              + classes.entrySet().stream()
                  .map(e -> e.getKey() + " (" + e.getValue() + ")")
                  .collect(Collectors.joining(", ")),
          "give a file whose ground is classified");
    }
    header.warnings().forEach(warning -> warnings.add(name + ": " + warning));
    thinner.assumption(name).ifPresent(assumptions::add);
    List<Shot> kept = new ShotSieve(name, place, warnings).keep(thinner.kept());
    return new Shots(
        name,
        kept,
        List.of(),
        Optional.empty(),
        List.of(
            String.format(
                Locale.ROOT,
                "%s: point cloud, %d points, %d of them ground (class 2), %d kept, %s, elevations"
                    + " in %s",
                name,
                header.points(),
                thinner.seen(),
                kept.size(),
                plane
                    .map(ShotPlane::words)
                    .orElse("places in " + VerticalUnit.ofMetres(planM, "").name()),
                VerticalUnit.ofMetres(heightM, "").name())),
        UsualAccuracy.AIRBORNE,
        assumptions,
        warnings);
  }

  private Optional<ShotPlane> plane(ElevationInput input, WorkingCrs crs) {
    Optional<RasterCrs> own = header.crs();
    if (own.isEmpty() && input.crsOverride() != null && !input.crsOverride().isBlank()) {
      own = Optional.of(RasterCrs.ofName(input.crsOverride(), "elevation.crs"));
    }
    Coordinate middle = middle(header);
    return own.map(it -> ShotPlane.of(it, crs, name, middle.x, middle.y, assumptions, warnings));
  }

  private double heightM(ShotUnits units, double planM) {
    Optional<VerticalUnit> own = header.verticalUnit();
    if (units.heightM().isPresent()) {
      double stated = units.heightM().getAsDouble();
      VerticalUnit.overruled(name, own, "the unit of its elevations", stated)
          .ifPresent(warnings::add);
      return stated;
    }
    if (own.isPresent()) {
      return own.get().metres();
    }
    assumptions.add(
        new Assumption(
            "elevation.vertical-unit",
            VerticalUnit.ofMetres(planM, "").name(),
            name + " does not name the unit of its elevations; taken to be that of its places"));
    return planM;
  }

  /** Area covered on the working plane in m². */
  private double extent(Optional<ShotPlane> plane, double planM) {
    double[] b = header.bounds();
    Coordinate low =
        plane.map(p -> p.place(b[0], b[1])).orElse(new Coordinate(planM * b[0], planM * b[1]));
    Coordinate high =
        plane.map(p -> p.place(b[2], b[3])).orElse(new Coordinate(planM * b[2], planM * b[3]));
    return Math.abs((high.x - low.x) * (high.y - low.y));
  }

  private interface Take {
    void point(long number, LASPoint point);
  }

  private void eachGroundPoint(Take take) {
    long number = 0;
    try (CloseablePointIterable points = new LASReader(file.toFile()).getCloseablePoints()) {
      for (LASPoint point : points) {
        number++;
        int kind =
            header.classWithFlags()
                ? point.getClassification() & CLASS_BITS
                : point.getClassification();
        classes.merge(kind, 1, Integer::sum);
        if (kind == GROUND && !point.isWithheld()) {
          take.point(number, point);
        }
      }
    } catch (BadInputException e) {
      throw e;
    } catch (RuntimeException e) {
      throw bad(
          "its points cannot be read (" + e.getClass().getSimpleName() + ")", "export it anew");
    }
    if (number < header.points()) {
      throw bad(
          "only " + number + " of its " + header.points() + " points can be read: it is cut off",
          "copy it again");
    }
  }

  private BadInputException bad(String what, String mend) {
    return new BadInputException(file.toString(), what, mend);
  }
}
