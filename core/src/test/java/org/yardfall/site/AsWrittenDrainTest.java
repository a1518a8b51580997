package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.locationtech.jts.simplify.DouglasPeuckerSimplifier;
import org.yardfall.Screening;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFolder;
import org.yardfall.route.Audit;
import org.yardfall.route.DrainKind;
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

  /** A plan and where it was written. */
  private record Written(Result result, Path layers) {}

  @TempDir private static Path folder;
  private static final List<Written> ALL = new ArrayList<>();

  /** Two lots of the sample: drains with branches, with bores, and one that was drawn. */
  @BeforeAll
  static void plan() {
    ALL.clear();
    write(lot("9"));
    Site site = lot("7");
    write(
        site.withPinned(
            List.of(
                new PinnedLine(
                    "mine",
                    new GeometryFactory()
                        .createLineString(
                            new Coordinate[] {
                              new Coordinate(500128, 4999903.5),
                              new Coordinate(500136, 4999903),
                              new Coordinate(500145.8, 4999893.8),
                              new Coordinate(500149.8, 4999891.8),
                              new Coordinate(500182.8, 4999891.8),
                              new Coordinate(500183, 4999890.4)
                            }),
                    "D1",
                    ""))));
  }

  private static Site lot(String id) {
    return SiteReader.read(
        Path.of("..", "samples", "fernhill", "site.yml"), Optional.of(id), ElevationSource.PLANES);
  }

  private static void write(Site site) {
    Result result = Screening.of(site).run();
    Path out = folder.resolve("out" + ALL.size());
    ResultFolder.write(result, UnitSystem.METRIC, out, List.of());
    ALL.add(new Written(result, out.resolve("layers")));
  }

  @ParameterizedTest
  @ValueSource(strings = {".geojson", ".shp"})
  void everyDrainReadBackPassesTheAudit(String ending) {
    for (Written written : ALL) {
      Map<String, DrainLine> lines = read(written, ending);
      assertFalse(written.result.routes().isEmpty());
      for (Route route : written.result.routes()) {
        DrainLine main = lines.get(route.id() + " main");
        assertEquals(route.lengthM(), length(route, lines), 0.02);
        assertEquals(
            route.main().stations().get(0).invertM(), main.stations().get(0).invertM(), 0.001);
        Audit audit = audit(written, route, lines);
        assertTrue(audit.checks().size() >= 10);
        assertTrue(audit.passed(), route.id() + " " + failed(audit));
      }
    }
  }

  /** The file given as drawn lines makes the same drains, each branch on its own line. */
  @ParameterizedTest
  @ValueSource(strings = {".geojson", ".shp"})
  void everyDrainReadBackAsDrawnIsTheSameDrain(String ending) {
    for (int i = 0; i < ALL.size(); i++) {
      Written written = ALL.get(i);
      Site drawn =
          SiteReader.read(
              Path.of("..", "samples", "fernhill", "site.yml"),
              Optional.of(written.result.site().lot().orElseThrow().id()),
              Optional.of(written.layers.resolve("drains" + ending)),
              ElevationSource.PLANES);
      Result again = Screening.of(drawn).run();
      List<Route> pinned =
          again.routes().stream().filter(r -> r.kind() == DrainKind.PINNED).toList();
      assertEquals(
          written.result.routes().size(), pinned.size(), again.plan().rejected().toString());
      for (Route route : written.result.routes()) {
        assertTrue(
            pinned.stream().anyMatch(each -> same(route, each)),
            route.id() + " " + route.lengthM() + " with " + route.branches().size());
      }
    }
  }

  private static boolean same(Route one, Route other) {
    return joins(one).equals(joins(other))
        && one.outletId().equals(other.outletId())
        && Math.abs(one.lengthM() - other.lengthM()) < 0.05;
  }

  private static List<Integer> joins(Route route) {
    return route.branches().stream().map(Route.Branch::joins).toList();
  }

  /** So that the test above means what it says. */
  @Test
  void drawnDrainsAndBranchesAreAmongThem() {
    List<Route> routes = ALL.stream().flatMap(w -> w.result.routes().stream()).toList();
    assertTrue(routes.stream().anyMatch(r -> r.kind() == DrainKind.PINNED));
    assertTrue(routes.stream().anyMatch(r -> !r.branches().isEmpty()));
    assertTrue(routes.stream().anyMatch(r -> joins(r).stream().anyMatch(line -> line > 0)));
  }

  /** The audit of a file is no formality: what a hand changes in it is found. */
  @ParameterizedTest
  @ValueSource(strings = {".geojson", ".shp"})
  void whatIsChangedInTheFileFails(String ending) {
    for (Written written : ALL) {
      for (Route route : written.result.routes()) {
        checkFails("outlet-invert", written, route, ending, s -> lowered(s, 0.3));
        checkFails("cover", written, route, ending, s -> lowered(s, -0.5));
        checkFails("falls", written, route, ending, AsWrittenDrainTest::bumped);
        checkFails("stations-on-line", written, route, ending, AsWrittenDrainTest::moved);
        checkFails("falls", written, route, ending, AsWrittenDrainTest::reversed);
        checkFails("outlet", written, route, ending, AsWrittenDrainTest::reversed);
      }
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {".geojson", ".shp"})
  void aBranchThatArrivesBelowItsTrunkFails(String ending) {
    for (Written written : ALL) {
      for (Route route : written.result.routes()) {
        if (!route.branches().isEmpty()) {
          Map<String, DrainLine> lines = read(written, ending);
          lines.computeIfPresent(route.id() + " B1", (k, line) -> lowered(line, 0.3));
          assertTrue(failed(audit(written, route, lines)).contains("junction-invert"));
        }
      }
    }
  }

  /** The same by hands in the file itself. */
  @Test
  void aFileChangedOnDiskFails() throws IOException {
    Written written = ALL.get(0);
    checkFileFails(
        "falls",
        written,
        "stations.geojson",
        root -> {
          ObjectNode middle = (ObjectNode) first(root).get(first(root).size() / 2);
          ObjectNode fields = (ObjectNode) middle.path("properties");
          fields.put("invert_m", fields.path("invert_m").asDouble() + 0.2);
        });
    checkFileFails(
        "stations-on-line",
        written,
        "drains.geojson",
        root -> {
          ArrayNode points = (ArrayNode) line(root);
          ArrayNode bend = (ArrayNode) points.get(points.size() / 2);
          bend.set(1, bend.numberNode(bend.get(1).asDouble() + 0.00002));
        });
    checkFileFails(
        "stations-on-line",
        written,
        "drains.geojson",
        root -> {
          ArrayNode points = (ArrayNode) line(root);
          List<JsonNode> all = new ArrayList<>();
          points.forEach(p -> all.add(0, p));
          points.removeAll().addAll(all);
        });
  }

  private static List<JsonNode> first(JsonNode root) {
    List<JsonNode> stations = new ArrayList<>();
    root.path("features")
        .forEach(
            f -> {
              boolean main = f.path("properties").path("part").asText().equals("main");
              if (main && f.path("properties").path("route").asText().equals("R1")) {
                stations.add(f);
              }
            });
    return stations;
  }

  private static JsonNode line(JsonNode root) {
    return root.path("features").get(0).path("geometry").path("coordinates");
  }

  private static void checkFileFails(
      String check, Written written, String file, Consumer<JsonNode> hand) throws IOException {
    Path copy = Files.createTempDirectory(folder, "changed");
    for (String name : List.of("stations.geojson", "drains.geojson")) {
      Files.copy(written.layers.resolve(name), copy.resolve(name));
    }
    ObjectMapper mapper = new ObjectMapper();
    JsonNode root = mapper.readTree(copy.resolve(file).toFile());
    hand.accept(root);
    mapper.writeValue(copy.resolve(file).toFile(), root);
    Written changed = new Written(written.result, copy);
    Map<String, DrainLine> lines = read(changed, ".geojson");
    List<String> failed = failed(audit(changed, written.result.routes().get(0), lines));
    assertTrue(failed.contains(check), check + " is not in " + failed);
  }

  private static void checkFails(
      String check,
      Written written,
      Route route,
      String ending,
      UnaryOperator<DrainLine> tampered) {
    Map<String, DrainLine> lines = read(written, ending);
    lines.computeIfPresent(route.id() + " main", (k, line) -> tampered.apply(line));
    List<String> failed = failed(audit(written, route, lines));
    assertTrue(failed.contains(check), route.id() + ": " + check + " is not in " + failed);
  }

  private static List<String> failed(Audit audit) {
    return audit.checks().stream().filter(c -> !c.passed()).map(Audit.Check::name).toList();
  }

  private static DrainLine lowered(DrainLine line, double byM) {
    return new DrainLine(
        line.vertices(), line.stations().stream().map(s -> at(s, s.stationM(), -byM)).toList());
  }

  /** One station in the middle raised by twenty centimetres. */
  private static DrainLine bumped(DrainLine line) {
    List<Station> stations = new ArrayList<>(line.stations());
    int middle = stations.size() / 2;
    stations.set(middle, at(stations.get(middle), stations.get(middle).stationM(), 0.2));
    return new DrainLine(line.vertices(), stations);
  }

  /** Its second bend moved by a metre. */
  private static DrainLine moved(DrainLine line) {
    List<Coordinate> bends = new ArrayList<>(line.vertices());
    Coordinate bend = bends.get(1);
    bends.set(1, new Coordinate(bend.x + 0.7, bend.y - 0.7));
    return new DrainLine(bends, line.stations());
  }

  private static DrainLine reversed(DrainLine line) {
    List<Coordinate> bends = new ArrayList<>(line.vertices());
    Collections.reverse(bends);
    List<Station> stations = new ArrayList<>();
    for (Station s : line.stations()) {
      stations.add(0, at(s, line.lengthM() - s.stationM(), 0));
    }
    return new DrainLine(bends, stations);
  }

  private static Station at(Station s, double stationM, double raisedM) {
    return new Station(
        stationM,
        s.x(),
        s.y(),
        s.groundM(),
        s.invertM() + raisedM,
        s.coverM() - raisedM,
        s.depthM() - raisedM,
        s.grade(),
        s.span());
  }

  private static double length(Route route, Map<String, DrainLine> lines) {
    return lines.entrySet().stream()
        .filter(e -> e.getKey().startsWith(route.id() + " "))
        .mapToDouble(e -> e.getValue().lengthM())
        .sum();
  }

  private static Audit audit(Written written, Route route, Map<String, DrainLine> lines) {
    Result result = written.result;
    DrainLine main = lines.get(route.id() + " main");
    List<Route.Branch> branches = new ArrayList<>();
    for (int i = 1; i <= route.branches().size(); i++) {
      DrainLine branch = lines.get(route.id() + " B" + i);
      int joins = nearest(branch, main, branches);
      DrainLine onto = joins == 0 ? main : branches.get(joins - 1).line();
      branches.add(new Route.Branch(branch, joins, junctionM(onto, branch)));
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

  /** Number of the line on which a branch ends: the main line or a branch before it. */
  private static int nearest(DrainLine branch, DrainLine main, List<Route.Branch> before) {
    Coordinate end = branch.vertices().get(branch.vertices().size() - 1);
    Point at = new GeometryFactory().createPoint(end);
    return IntStream.rangeClosed(0, before.size())
        .boxed()
        .min(
            Comparator.comparingDouble(
                i -> inPlan(i == 0 ? main : before.get(i - 1).line()).distance(at)))
        .orElseThrow();
  }

  private static LineString inPlan(DrainLine line) {
    return new GeometryFactory().createLineString(line.vertices().toArray(Coordinate[]::new));
  }

  private static double junctionM(DrainLine main, DrainLine branch) {
    Coordinate end = branch.vertices().get(branch.vertices().size() - 1);
    return new LengthIndexedLine(inPlan(main)).project(end);
  }

  /** The lines of the two layers by route and part. */
  private static Map<String, DrainLine> read(Written written, String ending) {
    Map<String, List<Station>> stations = new LinkedHashMap<>();
    VectorLayer points = layer(written, "stations" + ending);
    PlaneTransform plane =
        PlaneTransform.toPlane(points.crs().orElseThrow(), written.result.site().crs());
    for (VectorFeature f : points.features()) {
      Coordinate at = plane.apply(f.geometry().getCoordinate());
      double ground = number(f, "ground_m");
      double invert = number(f, "invert_m");
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
                  number(f, "cover_m"),
                  ground - invert,
                  number(f, "grade"),
                  Station.Span.valueOf(text(f, "span").toUpperCase(Locale.ROOT))));
    }
    Map<String, DrainLine> lines = new LinkedHashMap<>();
    for (VectorFeature f : layer(written, "drains" + ending).features()) {
      Geometry line = plane.apply(f.geometry());
      // The line has a point at every station; those on a straight stretch are no bends.
      Coordinate[] bends = DouglasPeuckerSimplifier.simplify(line, 0.004).getCoordinates();
      String key = text(f, "id") + " " + text(f, "part");
      lines.put(key, new DrainLine(List.of(bends), stations.get(key)));
    }
    return lines;
  }

  private static VectorLayer layer(Written written, String file) {
    return VectorReader.read(LayerSource.of(written.layers.resolve(file)));
  }

  private static String text(VectorFeature f, String field) {
    return f.attribute(field).orElseThrow();
  }

  private static double number(VectorFeature f, String field) {
    return Double.parseDouble(text(f, field));
  }
}
