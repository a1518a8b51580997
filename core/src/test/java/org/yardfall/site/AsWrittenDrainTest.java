package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.locationtech.jts.simplify.DouglasPeuckerSimplifier;
import org.yardfall.Screening;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFolder;
import org.yardfall.route.Audit;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.RouteAuditor;
import org.yardfall.route.RouteSettings;
import org.yardfall.route.Station;

/**
 * The audit of drains as they stand in the written files: read back in other code than wrote them,
 * and held against the raw ground, the limits and what lies around.
 */
class AsWrittenDrainTest {

  /** Coordinates of the files are rounded to this, in metres. */
  private static final double ROUNDING_M = 0.002;

  @TempDir private static Path folder;
  private static Result result;

  @BeforeAll
  static void plan() {
    Site site =
        SiteReader.read(
            Path.of("..", "samples", "fernhill", "site.yml"),
            Optional.of("9"),
            ElevationSource::crsOf);
    result = Screening.of(site).run();
    ResultFolder.write(result, UnitSystem.METRIC, folder.resolve("out"), List.of());
  }

  @Test
  void drainsReadFromGeoJsonPassTheAudit() {
    checkAll(".geojson", 0);
  }

  @Test
  void drainsReadFromAShapefilePassTheAudit() {
    checkAll(".shp", 0);
  }

  /** The audit of a file is no formality: a pipe raised by a hand in it fails. */
  @Test
  void aDrainRaisedInTheFileFails() {
    Map<String, DrainLine> lines = read(".geojson", 0.1);
    assertFalse(audit(result.routes().get(0), lines).passed());
  }

  private static void checkAll(String ending, double raisedM) {
    Map<String, DrainLine> lines = read(ending, raisedM);
    assertFalse(result.routes().isEmpty());
    for (Route route : result.routes()) {
      DrainLine main = lines.get(route.id() + " main");
      assertEquals(route.lengthM(), length(route, lines), 0.02);
      assertEquals(
          route.main().stations().get(0).invertM(), main.stations().get(0).invertM(), 0.001);
      Audit audit = audit(route, lines);
      assertTrue(audit.checks().size() >= 10);
      assertTrue(
          audit.passed(),
          route.id() + " " + audit.checks().stream().filter(c -> !c.passed()).toList());
    }
  }

  private static double length(Route route, Map<String, DrainLine> lines) {
    return lines.entrySet().stream()
        .filter(e -> e.getKey().startsWith(route.id() + " "))
        .mapToDouble(e -> e.getValue().lengthM())
        .sum();
  }

  private static Audit audit(Route route, Map<String, DrainLine> lines) {
    DrainLine main = lines.get(route.id() + " main");
    List<Route.Branch> branches = new ArrayList<>();
    for (int i = 1; i <= route.branches().size(); i++) {
      DrainLine branch = lines.get(route.id() + " B" + i);
      branches.add(new Route.Branch(branch, junctionM(main, branch)));
    }
    RouteSettings settings = RouteSettings.defaults(result.site().drain());
    if (!route.bores().isEmpty()) {
      settings = settings.withUnderSlabs(route.bores().get(0).pipes());
    }
    Outlet outlet =
        result.outlets().stream()
            .filter(o -> o.id().equals(route.outletId()))
            .findFirst()
            .orElseThrow();
    return RouteAuditor.auditRead(
        result.site(), result.terrain().ground(), settings, outlet, main, branches, ROUNDING_M);
  }

  private static double junctionM(DrainLine main, DrainLine branch) {
    Coordinate end = branch.vertices().get(branch.vertices().size() - 1);
    return new LengthIndexedLine(
            new org.locationtech.jts.geom.GeometryFactory()
                .createLineString(main.vertices().toArray(Coordinate[]::new)))
        .project(end);
  }

  /** The lines of the two layers by route and part. */
  private static Map<String, DrainLine> read(String ending, double raisedM) {
    Map<String, List<Station>> stations = new LinkedHashMap<>();
    VectorLayer points = layer("stations" + ending);
    PlaneTransform plane = PlaneTransform.toPlane(points.crs().orElseThrow(), result.site().crs());
    for (VectorFeature f : points.features()) {
      Coordinate at = plane.apply(f.geometry().getCoordinate());
      double ground = number(f, "ground_m");
      double invert = number(f, "invert_m") + raisedM;
      double z = f.geometry().getCoordinate().getZ(); // this reader of GeoJSON leaves it out
      assertTrue(Double.isNaN(z) || Math.abs(z - number(f, "invert_m")) < 0.0015);
      stations
          .computeIfAbsent(text(f, "route") + " " + text(f, "part"), k -> new ArrayList<>())
          .add(
              new Station(
                  number(f, "station_m"),
                  at.x,
                  at.y,
                  ground,
                  invert,
                  number(f, "cover_m") - raisedM,
                  ground - invert,
                  number(f, "grade"),
                  Station.Span.valueOf(text(f, "span").toUpperCase(Locale.ROOT))));
    }
    Map<String, DrainLine> lines = new LinkedHashMap<>();
    for (VectorFeature f : layer("drains" + ending).features()) {
      Geometry line = plane.apply(f.geometry());
      // The line has a point at every station; those on a straight stretch are no bends.
      Coordinate[] bends = DouglasPeuckerSimplifier.simplify(line, 0.004).getCoordinates();
      String key = text(f, "id") + " " + text(f, "part");
      lines.put(key, new DrainLine(List.of(bends), stations.get(key)));
    }
    return lines;
  }

  private static VectorLayer layer(String file) {
    return VectorReader.read(LayerSource.of(folder.resolve("out/layers/" + file)));
  }

  private static String text(VectorFeature f, String field) {
    return f.attribute(field).orElseThrow();
  }

  private static double number(VectorFeature f, String field) {
    return Double.parseDouble(text(f, field));
  }
}
