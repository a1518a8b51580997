package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKTReader;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.site.Building;
import org.yardfall.site.Crossing;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Obstacle;
import org.yardfall.site.PinnedLine;
import org.yardfall.site.Seep;
import org.yardfall.site.Site;
import org.yardfall.site.SiteReader;

/** The files of a result serve as the files of a site: their layers are read by name. */
class ReadBackTest {

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"site.gpkg", "site.kml"})
  void layersAreReadByName(String file) throws Exception {
    Result result = ResultFixture.metric();
    LayerSet layers = LayerSet.of(result);
    new GeoPackageWriter(result.site().crs()).write(layers, folder.resolve("site.gpkg"));
    new KmlWriter(result.site().crs()).write("", layers, folder.resolve("site.kml"));
    Path dem = Path.of("..", "samples", "fernhill", "dem.tif").toAbsolutePath().normalize();
    Files.writeString(
        folder.resolve("site.yml"),
        """
        site: { crs: "EPSG:26915" }
        elevation: { files: ["%2$s"], vertical-unit: m }
        parcels: { file: %1$s, layer: lot, id: id, lot: "7" }
        outlets: { file: %1$s, layer: outlets, id: id }
        """
            .formatted(file, dem));
    Site site = SiteReader.read(folder.resolve("site.yml"), ElevationSource.PLANES);
    Geometry lot = site.lot().orElseThrow().outline();
    Geometry given = result.site().lot().orElseThrow().outline();
    assertTrue(lot.norm().equalsExact(given.norm(), 0.001));
    assertEquals(result.outlets().size(), site.outlets().size());
    assertEquals("CB1", site.outlets().get(0).id());
    assertEquals(0, site.outlets().get(0).at().distance(result.outlets().get(0).at()), 0.001);
  }

  /**
   * A site with one of everything, written and read back from each format, is the same site: the
   * layer of obstacles serves buildings, crossings, obstacles and seeps at once. Points and lines
   * come back as areas that their clearance is part of.
   */
  @ParameterizedTest
  @ValueSource(strings = {"site.gpkg", "site.kml", "obstacles.geojson", "obstacles.shp"})
  void whatATrenchMustMindReadsBack(String file) throws Exception {
    Site given = oneOfEverything();
    write(given);
    String source =
        file.startsWith("site")
            ? "{ file: " + file + ", layer: obstacles }"
            : "{ file: " + file + " }";
    Site site =
        read("buildings: %1$s\ncrossings: %1$s\nobstacles: %1$s\nseeps: %1$s\n".formatted(source));
    assertEquals(List.of(), site.warnings());
    assertEquals(1, site.buildings().size());
    Building house = site.buildings().get(0);
    assertEquals("house", house.id());
    assertEquals(
        0, house.outline().symDifference(given.buildings().get(0).outline()).getArea(), 0.01);
    assertEquals(OptionalDouble.of(239.25), house.footingBottomM());
    assertEquals(OptionalDouble.of(240.5), house.lowestOpeningM());
    assertEquals(1, site.crossings().size());
    assertEquals(0.12, site.crossings().get(0).thicknessM(), 1e-9);
    assertEquals(0.08, site.crossings().get(0).baseM(), 1e-9);
    assertEquals(0.05, site.crossings().get(0).coverM(), 1e-9);
    assertEquals(1, site.seeps().size());
    assertEquals(OptionalDouble.of(0.45), site.seeps().get(0).waterDepthM());
    assertEquals(given.obstacles().size(), site.obstacles().size());
    for (int i = 0; i < given.obstacles().size(); i++) {
      checkSame(given.obstacles().get(i), site.obstacles().get(i));
    }
  }

  /** Lines of a drain read back as drawn lines, each with what it joins. */
  @ParameterizedTest
  @ValueSource(strings = {"site.gpkg", "site.kml", "drains.geojson", "drains.shp"})
  void linesOfADrainReadBackWithWhatTheyJoin(String file) throws Exception {
    write(ResultFixture.metric().site());
    String source =
        file.startsWith("site")
            ? "{ file: " + file + ", layer: drains }"
            : "{ file: " + file + " }";
    String outlet = "outlets: [{ id: CB1, kind: catch-basin, at: [500060, 4983010] }]\n";
    List<PinnedLine> lines = read(outlet + "pinned: " + source + "\n").pinned();
    assertEquals(
        List.of("R1 main ", "R1 B1 main", "R2 main "),
        lines.stream().map(l -> l.id() + " " + l.part() + " " + l.joins()).toList());
    assertEquals("CB1", lines.get(0).outletId());
  }

  private static void checkSame(Obstacle given, Obstacle read) {
    assertEquals(given.id(), read.id());
    assertEquals(given.kind(), read.kind());
    assertEquals(given.passage(), read.passage());
    assertEquals(given.bottomM(), read.bottomM());
    assertEquals(given.verticalClearanceM(), read.verticalClearanceM(), 1e-9);
    assertEquals(given.stayInside(), read.stayInside());
    assertEquals(given.rockDepthM(), read.rockDepthM());
    checkSameArea(given, given.clearanceM(), read, read.clearanceM());
    checkSameArea(
        given,
        given.uphillM().orElse(given.clearanceM()),
        read,
        read.uphillM().orElse(read.clearanceM()));
    checkSameArea(
        given,
        given.downhillM().orElse(given.clearanceM()),
        read,
        read.downhillM().orElse(read.clearanceM()));
  }

  /** The ground that is kept clear is the same but for the corners of a drawn circle. */
  private static void checkSameArea(Obstacle given, double givenM, Obstacle read, double readM) {
    Geometry kept = given.shape().buffer(givenM, 32);
    Geometry again = read.shape().buffer(readM, 32);
    double apart = kept.isEmpty() ? 0 : kept.symDifference(again).getArea() / kept.getArea();
    assertTrue(apart < 0.03, given.id() + " differs by " + apart);
  }

  /** Given under obstacles alone, what it holds of other sections is not passed over in silence. */
  @Test
  void whatIsGivenUnderTheWrongSectionIsSaid() throws Exception {
    write(oneOfEverything());
    Site site = read("obstacles: { file: obstacles.geojson }\n");
    assertTrue(site.buildings().isEmpty());
    assertEquals(
        List.of(
            "obstacles.geojson: features of kind building are left out; give the file under"
                + " buildings too",
            "obstacles.geojson: features of kind seep are left out; give the file under seeps too",
            "obstacles.geojson: features of kind slab are left out; give the file under crossings"
                + " too"),
        site.warnings());
  }

  /** Swales that are to be levelled come back as the same outlines. */
  @Test
  void levelledSwalesReadBack() throws Exception {
    Result result = ResultFixture.metric();
    LayerSet layers = LayerSet.of(result);
    assertEquals(1, layers.layer("levelled").features().size());
    new GeoJsonLayerWriter(result.site().crs())
        .write(layers.layer("levelled"), folder.resolve("levelled.geojson"));
    Site site = read("levelled: { file: levelled.geojson }\n");
    assertEquals(1, site.levelled().size());
    Geometry outline = result.site().levelled().get(0).outline();
    assertEquals(0, site.levelled().get(0).outline().symDifference(outline).getArea(), 0.01);
  }

  private void write(Site site) throws Exception {
    LayerSet layers = LayerSet.of(ResultFixture.on(site));
    new GeoPackageWriter(site.crs()).write(layers, folder.resolve("site.gpkg"));
    new KmlWriter(site.crs()).write("", layers, folder.resolve("site.kml"));
    for (String layer : List.of("obstacles", "drains")) {
      new GeoJsonLayerWriter(site.crs())
          .write(layers.layer(layer), folder.resolve(layer + ".geojson"));
      new ShapefileLayerWriter(site.crs()).write(layers.layer(layer), folder);
    }
  }

  private Site read(String sections) throws Exception {
    Path dem = Path.of("..", "samples", "fernhill", "dem.tif").toAbsolutePath().normalize();
    Files.writeString(
        folder.resolve("site.yml"),
        "site: { crs: \"EPSG:26915\" }\nelevation: { files: [\"%s\"], vertical-unit: m }\n%s"
            .formatted(dem, sections));
    return SiteReader.read(folder.resolve("site.yml"), ElevationSource.PLANES);
  }

  private static Site oneOfEverything() {
    OptionalDouble none = OptionalDouble.empty();
    return MadeUpSite.like(ResultFixture.metric().site())
        .buildings(
            List.of(
                new Building(
                    "house",
                    (Polygon) shape("POLYGON((20 20, 30 20, 30 30, 20 30, 20 20))"),
                    OptionalDouble.of(239.25),
                    OptionalDouble.of(240.5))))
        .crossings(
            List.of(
                new Crossing(
                    "walk",
                    (Polygon) shape("POLYGON((0 4, 60 4, 60 5, 0 5, 0 4))"),
                    0.12,
                    0.08,
                    0.05)))
        .obstacles(
            List.of(
                new Obstacle(
                    "gas",
                    Obstacle.Kind.UTILITY,
                    shape("LINESTRING(0 8, 60 10)"),
                    0.6,
                    Obstacle.Passage.UNDER,
                    OptionalDouble.of(239.1),
                    0.25,
                    none,
                    none,
                    false,
                    none),
                new Obstacle(
                    "oak",
                    Obstacle.Kind.TREE,
                    shape("POINT(50 40)"),
                    3,
                    Obstacle.Passage.SOLID_PIPE,
                    none,
                    0.3,
                    none,
                    none,
                    false,
                    none),
                new Obstacle(
                    "well",
                    Obstacle.Kind.WELL,
                    shape("POINT(5 45)"),
                    7.5,
                    Obstacle.Passage.NONE,
                    none,
                    0.3,
                    OptionalDouble.of(7.5),
                    OptionalDouble.of(15),
                    false,
                    none),
                new Obstacle(
                    "bed",
                    Obstacle.Kind.KEEP_OUT,
                    shape("POLYGON((40 12, 45 12, 45 15, 40 15, 40 12))"),
                    0.5,
                    Obstacle.Passage.NONE,
                    none,
                    0.3,
                    none,
                    none,
                    false,
                    none),
                new Obstacle(
                    "strip",
                    Obstacle.Kind.EASEMENT,
                    shape("POLYGON((60 0, 63 0, 63 50, 60 50, 60 0))"),
                    0,
                    Obstacle.Passage.UNDER,
                    none,
                    0.3,
                    none,
                    none,
                    true,
                    none),
                new Obstacle(
                    "ledge",
                    Obstacle.Kind.ROCK,
                    shape("POLYGON((12 30, 18 30, 18 36, 12 36, 12 30))"),
                    0,
                    Obstacle.Passage.UNDER,
                    none,
                    0.3,
                    none,
                    none,
                    false,
                    OptionalDouble.of(0.4))))
        .seeps(List.of(new Seep("wet", shape("POINT(10 25)"), OptionalDouble.of(0.45))))
        .make();
  }

  /** A shape on the fixture's lot, whose south-west corner lies at 500000, 4983000. */
  private static Geometry shape(String wkt) {
    try {
      return AffineTransformation.translationInstance(500000, 4983000)
          .transform(new WKTReader().read(wkt));
    } catch (ParseException e) {
      throw new IllegalArgumentException(wkt, e);
    }
  }
}
