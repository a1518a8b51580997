package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Geometry;

class VectorReaderTest {

  private static final Path LOTS = Path.of("src/test/resources/org/yardfall/site/parcels");

  @TempDir Path folder;

  /** Real cadastral parcels (see NOTICE beside them) in four encodings made by GDAL. */
  @ParameterizedTest
  @ValueSource(strings = {"lots.shp", "lots-lonlat.geojson", "lots.gpkg"})
  void theSameParcelsComeOutOfEveryEncoding(String file) {
    WorkingCrs plane = CrsLookup.of("EPSG:2154");
    VectorLayer expected = read("lots-crs-member.geojson", null);
    VectorLayer actual = read(file, file.endsWith("gpkg") ? "parcels" : null);
    assertEquals(10, actual.features().size());
    PlaneTransform expectedToPlane = PlaneTransform.toPlane(expected.crs().orElseThrow(), plane);
    PlaneTransform toPlane = PlaneTransform.toPlane(actual.crs().orElseThrow(), plane);
    for (int i = 0; i < 10; i++) {
      VectorFeature e = expected.features().get(i);
      VectorFeature a = actual.features().get(i);
      assertEquals(e.attribute("IDU"), a.attribute("idu"));
      Geometry there = toPlane.apply(a.geometry());
      // lon/lat to nine decimals are 0.1 mm; the source's own precision is 1 cm
      assertTrue(
          expectedToPlane.apply(e.geometry()).norm().equalsExact(there.norm(), 0.001)
              || expectedToPlane.apply(e.geometry()).symDifference(there).getArea() < 0.01,
          file + " " + i);
    }
  }

  @Test
  void aGeoPackageLayerIsChosenByName() {
    assertEquals(3, read("lots.gpkg", "buildings").features().size());
    checkProblem(source("lots.gpkg", null), "several layers (buildings, parcels)");
    checkProblem(source("lots.gpkg", "parcel"), "did you mean 'parcels'?");
  }

  @Test
  void aKmlFolderIsALayer() throws IOException {
    VectorLayer lots = read(kml("<Folder><name>lots</name>" + LOT + "</Folder>"), null);
    assertEquals("EPSG:4326", CrsLookup.shortName(lots.crs().orElseThrow()));
    VectorFeature lot = lots.features().get(0);
    assertEquals("{name=7, owner=A & B, APN=0012}", lot.attributes().toString());
    assertEquals(12, lot.geometry().getArea(), 1e-12); // 4 by 4 less 2 by 2
    LayerSource two =
        kml(
            "<Folder><name>lots</name>"
                + LOT
                + "</Folder><Folder><name>wells</name><Placemark id='w'><Point><coordinates>"
                + "\n -93.5,45.25,100 </coordinates></Point></Placemark></Folder>");
    checkProblem(two, "several folders (lots, wells)");
    VectorLayer wells = read(two, "wells");
    assertEquals("w", wells.features().get(0).fid());
    assertEquals(45.25, wells.features().get(0).geometry().getCoordinate().y);
    checkProblem(new LayerSource(two.file(), "well", null, null, null), "did you mean 'wells'?");
  }

  @Test
  void aDamagedKmlIsSaid() throws IOException {
    checkProblem(
        kml("<Placemark><Point><coordinates>1;2</coordinates></Point></Placemark>"),
        "placemark 1 is damaged");
    checkProblem(kml("<Placemark><Polygon/></Placemark>"), "not one outer boundary");
    checkProblem(kml("<Placemark>"), "not well-formed XML");
    checkProblem(kml(""), "holds no features");
  }

  /** A document that would fetch or expand entities is refused. */
  @Test
  void aKmlWithADocumentTypeIsRefused() throws IOException {
    Path file = folder.resolve("entities.kml");
    Files.writeString(
        file,
        "<!DOCTYPE kml [<!ENTITY e SYSTEM 'file:///etc/hostname'>]>"
            + "<kml xmlns='http://www.opengis.net/kml/2.2'><Placemark><name>&e;</name>"
            + "<Point><coordinates>1,2</coordinates></Point></Placemark></kml>");
    checkProblem(LayerSource.of(file), "not well-formed XML");
  }

  private static final String LOT =
      "<Placemark><name>7</name><ExtendedData><Data name='owner'><value>A &amp; B</value></Data>"
          + "<SchemaData schemaUrl='#s'><SimpleData name='APN'>0012</SimpleData></SchemaData>"
          + "</ExtendedData><MultiGeometry><Polygon><outerBoundaryIs><LinearRing><coordinates>"
          + "0,0 4,0 4,4 0,4 0,0</coordinates></LinearRing></outerBoundaryIs><innerBoundaryIs>"
          + "<LinearRing><coordinates>1,1 3,1 3,3 1,3 1,1</coordinates></LinearRing>"
          + "</innerBoundaryIs></Polygon></MultiGeometry></Placemark>";

  private LayerSource kml(String inside) throws IOException {
    Path file = folder.resolve("given.kml");
    Files.writeString(
        file,
        "<?xml version='1.0'?><kml xmlns='http://www.opengis.net/kml/2.2'><Document>"
            + inside
            + "</Document></kml>");
    return LayerSource.of(file);
  }

  private static VectorLayer read(LayerSource source, String layer) {
    return VectorReader.read(new LayerSource(source.file(), layer, null, null, null));
  }

  @Test
  void coordinatesOfGeoJsonAreLongitudeAndLatitude() throws IOException {
    VectorLayer layer = json("{'type':'Point','coordinates':[-93.1,45.2,300.5]}");
    assertEquals("EPSG:4326", CrsLookup.shortName(layer.crs().orElseThrow()));
    assertEquals(-93.1, layer.features().get(0).geometry().getCoordinate().x);
    assertTrue(Double.isNaN(layer.features().get(0).geometry().getCoordinate().getZ()));
  }

  @Test
  void featuresWithoutGeometryAndNumbersAsIdsAreKept() throws IOException {
    VectorLayer layer =
        json(
            "{'type':'FeatureCollection','features':[{'type':'Feature','id':7,'geometry':null,"
                + "'properties':{'a':1.50,'b':null,'c':'x'}}]}");
    VectorFeature feature = layer.features().get(0);
    assertEquals("7", feature.fid());
    assertNull(feature.geometry());
    assertEquals("{a=1.5, c=x}", feature.attributes().toString());
    assertEquals(List.of("a", "c", "b"), layer.fields());
  }

  @Test
  void metresWithoutACrsAreRefused() {
    checkJson(
        "{'type':'Point','coordinates':[500012.4,4999981.0]}", "are no longitude and latitude");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{'type':'Polygon','coordinates':[[[0,0],[1,0],[1,1],[0,1]]]}",
        "{'type':'Polygon','coordinates':[[[0,0],[1]]]}",
        "{'type':'Pond','coordinates':[0,0]}"
      })
  void aDamagedFeatureIsSaid(String text) {
    checkJson(text, "feature 1 is damaged");
  }

  @Test
  void whatIsNoGeoJsonIsSaid() {
    checkJson("{'a':1}", "it has no type");
    checkJson("{'type':'FeatureCollection'", "not well-formed JSON");
    checkJson("{'type':'FeatureCollection'}", "no list of features");
    checkJson("{'type':'FeatureCollection','features':[]}", "holds no features");
    checkJson(
        "{'type':'FeatureCollection','crs':{'type':'link'},'features':[]}", "does not name a CRS");
  }

  @Test
  void aFileThatIsMissingOrOfAnotherKindIsSaid() throws IOException {
    checkProblem(source("absent.shp", null), "there is no such file");
    Files.writeString(folder.resolve("plan.dxf"), "0");
    checkProblem(LayerSource.of(folder.resolve("plan.dxf")), "no vector format that is read here");
    Files.writeString(folder.resolve("not.gpkg"), "this is no database at all, but some text");
    checkProblem(LayerSource.of(folder.resolve("not.gpkg")), "not a readable GeoPackage");
  }

  @ParameterizedTest
  @ValueSource(strings = {"shx", "dbf"})
  void aShapefileWithoutOneOfItsPartsIsSaid(String part) throws IOException {
    Path shp = copyOfLots();
    Files.delete(folder.resolve("lots." + part));
    checkProblem(LayerSource.of(shp), "the shapefile's ." + part + " is missing");
  }

  @Test
  void aShapefileWithoutPrjNeedsACrs() throws IOException {
    Path shp = copyOfLots();
    Files.delete(folder.resolve("lots.prj"));
    checkProblem(LayerSource.of(shp), "does not say its CRS");
    LayerSource stated = new LayerSource(shp, null, "EPSG:2154", null, null);
    assertEquals("EPSG:2154", CrsLookup.shortName(VectorReader.read(stated).crs().orElseThrow()));
  }

  @Test
  void aDamagedShapefileIsSaid() throws IOException {
    Path shp = copyOfLots();
    byte[] bytes = Files.readAllBytes(shp);
    Files.write(shp, java.util.Arrays.copyOf(bytes, 300));
    checkProblem(LayerSource.of(shp), "the shapefile is damaged");
    Files.write(shp, "garbage".getBytes(StandardCharsets.UTF_8));
    checkProblem(LayerSource.of(shp), "the shapefile is damaged");
  }

  /** The .cpg file goes before the language byte, and both before a guess. */
  @Test
  void attributeTextIsReadInItsEncoding() throws IOException {
    checkText("windows-1251", null, (byte) 0xC9, "Двор");
    checkText("UTF-8", "UTF-8", (byte) 0x57, "Hôtel 七");
    checkText("ISO-8859-1", "88591", (byte) 0, "Grünfläche");
    checkText("UTF-8", null, (byte) 0, "Grünfläche");
    checkText("windows-1252", null, (byte) 0, "Grünfläche");
    checkText("IBM850", "850", (byte) 0, "Grünfläche");
  }

  private void checkText(String charset, String cpg, byte language, String text)
      throws IOException {
    byte[] value = java.util.Arrays.copyOf(text.getBytes(charset), 20);
    java.nio.ByteBuffer dbf =
        java.nio.ByteBuffer.allocate(65 + 21).order(java.nio.ByteOrder.LITTLE_ENDIAN);
    dbf.put(0, (byte) 3).putInt(4, 1).putShort(8, (short) 65).putShort(10, (short) 21);
    dbf.put(29, language);
    dbf.put(32, "NAME".getBytes(StandardCharsets.US_ASCII)).put(43, (byte) 'C').put(48, (byte) 20);
    dbf.put(64, (byte) 0x0D).put(65, (byte) ' ').put(66, value);
    Path file = Files.write(folder.resolve("text.dbf"), dbf.array());
    Path side = folder.resolve("text.cpg");
    Files.deleteIfExists(side);
    if (cpg != null) {
      Files.writeString(side, cpg);
    }
    DbfTable table =
        DbfTable.read(file, cpg == null ? java.util.Optional.empty() : java.util.Optional.of(side));
    assertEquals(text, table.rows().get(0).orElseThrow().get("NAME"));
  }

  private Path copyOfLots() throws IOException {
    for (String part : List.of("shp", "shx", "dbf", "prj")) {
      Files.copy(LOTS.resolve("lots." + part), folder.resolve("lots." + part));
    }
    return folder.resolve("lots.shp");
  }

  private VectorLayer json(String text) throws IOException {
    Path file = Files.writeString(folder.resolve("a.geojson"), text.replace('\'', '"'));
    return VectorReader.read(LayerSource.of(file));
  }

  private void checkJson(String text, String part) {
    checkLine(assertThrows(BadInputException.class, () -> json(text)), part);
  }

  private static VectorLayer read(String file, String layer) {
    return VectorReader.read(source(file, layer));
  }

  private static LayerSource source(String file, String layer) {
    return new LayerSource(LOTS.resolve(file).toAbsolutePath(), layer, null, null, null);
  }

  private static void checkProblem(LayerSource source, String part) {
    checkLine(assertThrows(BadInputException.class, () -> VectorReader.read(source)), part);
  }

  private static void checkLine(BadInputException e, String part) {
    assertEquals(1, e.getMessage().lines().count(), e.getMessage());
    assertTrue(e.getMessage().contains(part), e.getMessage());
  }
}
