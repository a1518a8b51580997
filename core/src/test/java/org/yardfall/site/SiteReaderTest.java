package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.yardfall.site.SiteFolder.LOT_7;
import static org.yardfall.site.SiteFolder.LOT_8;
import static org.yardfall.site.SiteFolder.MINIMAL;
import static org.yardfall.site.SiteFolder.feature;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a site file and the files that it names are understood as. */
class SiteReaderTest {

  @TempDir Path folder;
  private SiteFolder yard;

  @BeforeEach
  void files() {
    yard = SiteFolder.in(folder);
  }

  /** The example of the documentation, key by key. */
  @Test
  void theDocumentedExampleIsUnderstood() {
    Site site =
        yard.read(
            """
            site:      { name: Fernhill lot 7, crs: EPSG:26915 }
            elevation: { files: [dem.tif], vertical-unit: m, vertical-datum: local, accuracy: 0.10 m }
            parcels:   { file: parcels.geojson, id: LOT, lot: "7" }
            buildings: { file: buildings.geojson }
            obstacles: { file: obstacles.geojson }
            crossings: { file: walks.geojson }
            outlets:
              - { id: CB1, kind: catch-basin, at: [500012.4, 4999981.0], invert: 241.30 m, water-level: 241.55 m, lid: 242.10 m }
            soil:      { group: D, conductivity: 1 mm/h }
            storm:     { depth: 65 mm, duration: 24 h }
            drain:     { min-grade: 1 %, max-grade: 20 %, min-cover: 6 in, max-depth: 4 ft, setback: 2 ft, from-building: 3 ft,
                         trench-width: 18 in, pipe: 4 in }
            prices:    { trench: 40 per m, stone: 55 per t }
            """);
    assertEquals("Fernhill lot 7", site.name());
    assertEquals("EPSG:26915", site.crs().name());
    assertEquals("7", site.lot().orElseThrow().id());
    assertEquals(800, site.lot().orElseThrow().outline().getArea(), 1e-6);
    assertEquals(2, site.parcels().size());
    assertEquals(240.1, site.buildings().get(0).footingBottomM().orElseThrow());
    assertEquals(241.2, site.buildings().get(0).lowestOpeningM().orElseThrow());
    Obstacle utility = site.obstacles().get(0);
    assertEquals(Obstacle.Passage.UNDER, utility.passage());
    assertEquals(0.4572, utility.clearanceM(), 1e-12);
    assertEquals(239.5, utility.bottomM().orElseThrow());
    assertEquals(0.3048, utility.verticalClearanceM(), 1e-12);
    assertEquals(Obstacle.Passage.SOLID_PIPE, site.obstacles().get(1).passage());
    assertEquals(0.1524, site.crossings().get(0).baseM(), 1e-12);
    Outlet outlet = site.outlets().get(0);
    assertEquals(Outlet.Kind.CATCH_BASIN, outlet.kind());
    assertEquals(500012.4, outlet.at().x);
    assertEquals(OptionalDouble.of(241.55), outlet.waterLevelM());
    assertEquals(OptionalDouble.of(242.1), outlet.lidM());
    assertEquals(1e-3 / 3600, site.soil().conductivityMS().orElseThrow(), 1e-18);
    assertEquals(0.065, site.storm().depthM().orElseThrow());
    assertEquals(86400, site.storm().durationS().orElseThrow());
    assertEquals(
        Given.limits(0.01, 0.2, 0.1524, 1.2192, 0.6096, 0.9144, 0.4572, 0.11684, 0.1016),
        site.drain());
    assertEquals("{TRENCH=40.0, STONE=55.0}", site.prices().perUnit().toString());
    assertEquals("local", site.elevation().verticalDatum());
    assertEquals(0.1, site.elevation().accuracyM().orElseThrow());
    assertEquals(List.of(folder.resolve("dem.tif")), site.elevation().rasters());
  }

  @Test
  void drawnDrainsRulesForOutletsRockAndFrostAreUnderstood() {
    yard.layer(
        "drawn.geojson",
        feature("{'id':'a','outlet':'CB1'}", "LineString", "[[3,30],[3,3]]"),
        feature("{'id':'b'}", "LineString", "[[9,30],[9,3]]"));
    Site site =
        yard.read(
            MINIMAL
                + """
                outlets: [{ id: CB1, kind: catch-basin, at: [500003, 5000003], lid: 241 m }]
                pinned: { file: drawn.geojson }
                outlet-rules: { from-line: 3 ft, pumped: yes }
                soil: { rock-depth: 2 ft, frost-depth: 30 in }
                """);
    assertEquals(2, site.pinned().size());
    assertEquals("CB1", site.pinned().get(0).outletId());
    assertEquals("b", site.pinned().get(1).id());
    assertEquals(27, site.pinned().get(0).line().getLength(), 1e-6);
    assertEquals(0.9144, site.outletRules().fromLineM(), 1e-12);
    assertEquals(3.048, site.outletRules().fromHouseM(), 1e-12);
    assertEquals(true, site.outletRules().pumped());
    // 24 in to the rock, less 2 in of bed and the wall of 0.3 in of a pipe 4 in within, 4.6 in
    // without
    assertEquals(21.7 * 0.0254, site.drain().maxDepthM(), 1e-4);
    assertEquals(0.762, site.soil().frostDepthM().orElseThrow(), 1e-12);
    List<String> assumed = site.assumptions().stream().map(Assumption::about).toList();
    assertEquals(true, assumed.contains("outlet-rules.lid-head"));
    assertEquals(false, assumed.contains("outlet-rules.from-line"));
    assertEquals(false, assumed.contains("outlet-rules.dry-well-from-house"));
  }

  @Test
  void wetPatchesAndSwalesToLevelAreRead() {
    yard.layer(
        "wet.geojson",
        feature("{'id':'S1','water-depth':'18 in'}", "Point", "[3,30]"),
        feature("{'id':'S2'}", "Polygon", "[[[4,16],[6,16],[6,17],[4,17],[4,16]]]"));
    yard.layer(
        "swale.geojson",
        feature("{'id':'W1'}", "LineString", "[[3,30],[13,30]]"),
        feature("{'id':'W2','width':'2 m'}", "LineString", "[[3,20],[13,20]]"));
    yard.layer("drawn.geojson", feature("{'id':'a','seep':'S1'}", "LineString", "[[3,32],[3,3]]"));
    Site site =
        yard.read(
            MINIMAL
                + """
                seeps: { file: wet.geojson }
                levelled: { file: swale.geojson }
                pinned: { file: drawn.geojson }
                """);
    assertEquals(18 * 0.0254, site.seeps().get(0).waterDepthM().orElseThrow(), 1e-12);
    assertEquals(true, site.seeps().get(1).waterDepthM().isEmpty());
    assertEquals(10 * 5 * 0.3048, site.levelled().get(0).outline().getArea(), 1e-6);
    assertEquals(10 * 2, site.levelled().get(1).outline().getArea(), 1e-6);
    assertEquals("S1", site.pinned().get(0).seepId());
    assertEquals(
        true, site.assumptions().stream().anyMatch(a -> a.about().equals("levelled width")));
    yard.layer("drawn.geojson", feature("{'id':'a','seep':'S9'}", "LineString", "[[3,30],[3,3]]"));
    yard.checkProblem(
        MINIMAL + "seeps: { file: wet.geojson }\npinned: { file: drawn.geojson }\n",
        "there is no wet patch 'S9'");
  }

  @Test
  void aSepticFieldHasADistanceForEachSideAndAnEasementMayBindTheDrain() {
    yard.layer(
        "obstacles.geojson",
        feature("{'kind':'septic','uphill':'25 ft','downhill':'50 ft'}", "Point", "[3,30]"),
        feature(
            "{'kind':'easement','stay':'inside'}",
            "Polygon",
            "[[[0,16],[20,16],[20,17],[0,17],[0,16]]]"));
    Site site = yard.read(MINIMAL + "obstacles: { file: obstacles.geojson }\n");
    Obstacle septic = site.obstacles().get(0);
    assertEquals(7.62, septic.uphillM().orElseThrow(), 1e-12);
    assertEquals(15.24, septic.downhillM().orElseThrow(), 1e-12);
    assertEquals(7.62, septic.clearanceM(), 1e-12);
    assertEquals(true, septic.sided());
    assertEquals(true, site.obstacles().get(1).stayInside());
    assertEquals(Obstacle.Passage.UNDER, site.obstacles().get(1).passage());
  }

  @Test
  void whatIsNotGivenIsAssumedAndSaid() {
    Site site = yard.read(MINIMAL);
    assertEquals("EPSG:26915", site.crs().name());
    for (String about :
        List.of(
            "site.crs",
            "soil.group",
            "storm.depth",
            "storm.duration",
            "drain.min-grade",
            "drain.max-grade",
            "drain.min-cover",
            "drain.max-depth",
            "drain.setback",
            "drain.from-building",
            "drain.trench-width",
            "drain.pipe",
            "drain.vertical-clearance",
            "drain.bore-max-length",
            "drain.grade-line")) {
      List<Assumption> found =
          site.assumptions().stream().filter(a -> a.about().equals(about)).toList();
      assertEquals(1, found.size(), about);
      assertFalse(found.get(0).source().isBlank(), about);
    }
    assertEquals('D', site.soil().group());
    assertEquals(DrainLimits.GradeLine.FEWEST_GRADES, site.drain().gradeLine());
    assertTrue(site.lot().isEmpty());
    assertTrue(site.prices().perUnit().isEmpty());
  }

  @Test
  void theUtmZoneOfTheLotServesWhereTheRasterHasNoProjectedCrs() {
    yard.write(
        "degrees.geojson",
        "{'type':'Polygon','coordinates':[[[-93.1,45],[-93.0998,45],[-93.0998,45.0002],[-93.1,45]]]}");
    yard.write("site.yml", MINIMAL + "parcels: { file: degrees.geojson }\n");
    Site site = SiteReader.read(folder.resolve("site.yml"), raster -> Optional.empty());
    assertEquals("EPSG:32615", site.crs().name());
    assertEquals("1", site.lot().orElseThrow().id());
    assertTrue(site.assumptions().toString().contains("parcels.lot"), "the only parcel is meant");
  }

  @Test
  void theUtmZoneOfTheRasterServesWhereThereIsNoLotEither() throws IOException {
    RasterPlanes degrees =
        new RasterPlanes() {
          @Override
          public Optional<WorkingCrs> own(Path raster) {
            return Optional.empty();
          }

          @Override
          public Optional<WorkingCrs> zone(Path raster) {
            return SiteFolder.utm15(raster);
          }
        };
    Path dem = Files.createFile(folder.resolve("degrees.tif"));
    Site site = SiteReader.shortForm().elevation(dem).read(degrees);
    assertEquals("EPSG:26915", site.crs().name());
    assertTrue(site.assumptions().toString().contains("the UTM zone of degrees.tif"));
    yard.write(
        "degrees.geojson",
        "{'type':'Polygon','coordinates':[[[-87.1,45],[-87.0998,45],[-87.0998,45.0002],[-87.1,45]]]}");
    Site beside =
        SiteReader.shortForm()
            .elevation(dem)
            .parcels(folder.resolve("degrees.geojson"))
            .read(degrees);
    assertEquals("EPSG:32616", beside.crs().name(), "the lot's zone comes first");
  }

  @Test
  void plainTextValuesStayAsWritten() {
    yard.layer("parcels.geojson", LOT_7.replace("'7'", "'007'"), LOT_8);
    assertEquals(
        "007",
        yard.read(MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 007 }")
            .lot()
            .orElseThrow()
            .id());
  }

  @Test
  void aParcelNamedAsRightOfWayIsNobodysGround() {
    Site site =
        yard.read(
            MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 7, right-of-way: [\"8\"] }");
    assertEquals(2, site.parcels().size());
    assertTrue(site.neighbours().isEmpty());
    String written = SiteWriter.write(site, folder);
    assertTrue(written.contains("right-of-way"), written);
    assertTrue(yard.read(written).neighbours().isEmpty());
    assertEquals(
        1,
        yard.read(MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 7 }")
            .neighbours()
            .size());
  }

  @Test
  void bareAttributeNumbersTakeTheUnitOfTheirLayer() {
    yard.layer("o.geojson", feature("{'kind':'ditch','invert':800}", "Point", "[1,1]"));
    Site site = yard.read(MINIMAL + "outlets: { file: o.geojson, unit: ftUS }");
    assertEquals(800 * 1200.0 / 3937.0, site.outlets().get(0).invertM().orElseThrow(), 1e-9);
  }

  @Test
  void aLotOfOnePartIsTakenHoweverItIsWritten() {
    yard.layer(
        "parcels.geojson",
        feature("{'LOT':'7'}", "MultiPolygon", "[[[[0,0],[20,0],[20,40],[0,40],[0,0]]]]"));
    assertEquals(
        800,
        yard.read(MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 7 }")
            .lot()
            .orElseThrow()
            .outline()
            .getArea(),
        1e-6);
  }

  @Test
  void aNeighboursFaultyOutlineIsMendedAndSaid() {
    yard.layer(
        "parcels.geojson",
        LOT_7,
        feature("{'LOT':'8'}", "Polygon", "[[[20,0],[40,0],[20,40],[40,40],[20,0]]]"));
    Site site = yard.read(MINIMAL + "parcels: { file: parcels.geojson, id: LOT, lot: 7 }");
    assertEquals(3, site.parcels().size());
    assertTrue(
        site.warnings().get(0).contains("self-intersection at 500030"), site.warnings().get(0));
    assertTrue(site.parcels().stream().allMatch(p -> p.outline().isValid()));
  }

  @Test
  void theShortFormGivesTheSameSiteAsItsSiteFile() {
    Site quick =
        SiteReader.shortForm()
            .elevation(folder.resolve("dem.tif"))
            .parcels(folder.resolve("parcels.geojson"))
            .idField("LOT")
            .lot("7")
            .buildings(folder.resolve("buildings.geojson"))
            .outlet("500012.4,4999981.0,241.3 m")
            .outlet("500013,4999982")
            .read(SiteFolder::utm15);
    assertEquals(2, quick.outlets().size());
    assertEquals(OptionalDouble.of(241.3), quick.outlets().get(0).invertM());
    assertTrue(quick.outlets().get(1).invertM().isEmpty());
    yard.write("site.yml", SiteWriter.write(quick, folder));
    Site again = SiteReader.read(folder.resolve("site.yml"), SiteFolder::utm15);
    checkSame(quick, again);
  }

  private static void checkSame(Site expected, Site actual) {
    assertEquals(expected.assumptions(), actual.assumptions());
    assertEquals(expected.warnings(), actual.warnings());
    assertEquals(expected.inputs(), actual.inputs());
    assertEquals(expected.outlets(), actual.outlets());
    assertEquals(expected.drain(), actual.drain());
    assertEquals(expected, actual);
  }
}
