package org.yardfall.site;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;

/**
 * Reads a layer from a GeoJSON file, a shapefile, a GeoPackage, a KML document or LandXML, told
 * apart by their endings.
 */
final class VectorReader {

  private VectorReader() {}

  /**
   * The layer of the given source, in its own CRS: the one the source names, else the file's.
   *
   * @throws BadInputException if the file is missing, of another kind, damaged, without features,
   *     without a CRS, or its coordinates cannot be of the CRS it claims
   */
  static VectorLayer read(LayerSource source) {
    Path file = source.file();
    String name = file.getFileName().toString();
    if (!Files.exists(file)) {
      throw new BadInputException(name, "there is no such file (" + file + ")", "check the path");
    }
    if (!Files.isRegularFile(file) || !Files.isReadable(file)) {
      throw new BadInputException(name, "the file cannot be read (" + file + ")", "");
    }
    String lower = name.toLowerCase(Locale.ROOT);
    VectorLayer layer;
    if (lower.endsWith(".geojson") || lower.endsWith(".json")) {
      layer = GeoJsonReader.read(file);
    } else if (lower.endsWith(".shp")) {
      layer = ShapefileLayerReader.read(file);
    } else if (lower.endsWith(".gpkg")) {
      layer = GeoPackageReader.read(file, source.layer());
    } else if (lower.endsWith(".kml")) {
      layer = KmlReader.read(file, source.layer());
    } else if (lower.endsWith(".xml") || lower.endsWith(".landxml")) {
      layer = LandXmlLotReader.read(source);
    } else {
      throw new BadInputException(
          name,
          "this is no vector format that is read here",
          "give GeoJSON (.geojson, .json), a shapefile (.shp), a GeoPackage (.gpkg), KML (.kml) or"
              + " LandXML (.xml)");
    }
    if (layer.features().isEmpty()) {
      throw new BadInputException(layer.name(), "the file holds no features", "");
    }
    return withCrs(layer, source);
  }

  private static VectorLayer withCrs(VectorLayer layer, LayerSource source) {
    Optional<CoordinateReferenceSystem> crs =
        source.crs() == null
            ? layer.crs()
            : Optional.of(CrsLookup.decode(source.crs(), layer.name() + " crs " + source.crs()));
    if (crs.isEmpty()) {
      throw new BadInputException(
          layer.name(),
          "the file does not say its CRS (a shapefile's .prj is missing)",
          "give it as crs beside the file, such as crs: EPSG:26915");
    }
    if (!CrsLookup.isProjected(crs.get())) {
      refuseImpossibleDegrees(layer);
    }
    return new VectorLayer(layer.name(), crs, layer.fields(), layer.features());
  }

  private static void refuseImpossibleDegrees(VectorLayer layer) {
    Envelope extent = new Envelope();
    for (VectorFeature feature : layer.features()) {
      Geometry geometry = feature.geometry();
      if (geometry != null) {
        extent.expandToInclude(geometry.getEnvelopeInternal());
      }
    }
    if (extent.isNull()) {
      return;
    }
    boolean longitudes = extent.getMinX() >= -180 && extent.getMaxX() <= 180;
    if (!longitudes || extent.getMinY() < -90 || extent.getMaxY() > 90) {
      throw new BadInputException(
          layer.name(),
          String.format(
              Locale.ROOT,
              "coordinates such as %.1f, %.1f are no longitude and latitude, but the file does not"
                  + " say which CRS they are in",
              extent.getMaxX(),
              extent.getMaxY()),
          "give the CRS as crs beside the file, such as crs: EPSG:26915");
    }
  }
}
