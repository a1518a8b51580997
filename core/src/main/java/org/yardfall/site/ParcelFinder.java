package org.yardfall.site;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;

/**
 * Finds the subject lot among the parcels of a layer, in the layer's own CRS. The lot's outline
 * must be one valid polygon; a neighbour's faulty one is mended and said.
 */
final class ParcelFinder {

  /** At most this many ids are listed in a message. */
  private static final int LISTED = 8;

  private final VectorLayer layer;
  private final String idField;
  private final List<String> warnings;

  /**
   * What was found, outlines in the layer's own CRS.
   *
   * @param lot index of the lot among the parcels, or −1 if none was asked for
   */
  record Found(List<Parcel> parcels, int lot) {}

  private ParcelFinder(VectorLayer layer, String idField, List<String> warnings) {
    this.layer = layer;
    this.idField = idField;
    this.warnings = warnings;
  }

  /**
   * Finds the parcels.
   *
   * @param idField the attribute that holds the ids, or null for the features' own
   * @param lot the lot's id, or null for none
   * @param rightOfWay ids of the parcels that are public right-of-way
   * @param warnings where what was mended is said
   * @throws BadInputException if the field, the lot or a right-of-way is not there, or the lot is
   *     not one valid polygon
   */
  static Found find(
      VectorLayer layer,
      String idField,
      String lot,
      List<String> rightOfWay,
      List<String> warnings) {
    return new ParcelFinder(layer, idField, warnings).find(lot, Set.copyOf(rightOfWay));
  }

  private Found find(String lot, Set<String> rightOfWay) {
    if (idField != null && layer.fields().stream().noneMatch(idField::equalsIgnoreCase)) {
      throw new BadInputException(
          layer.name(),
          "there is no field '" + idField + "'",
          Nearest.suggestion(idField, layer.fields(), "")
              + " its fields are "
              + String.join(", ", layer.fields()));
    }
    if (layer.features().stream()
        .allMatch(f -> f.geometry() == null || OutlineCheck.polygons(f.geometry()).isEmpty())) {
      throw new BadInputException(
          layer.name(), "it holds no polygons, so no parcels", "give the parcels' outlines");
    }
    int subject = lot == null ? -1 : subject(lot);
    checkRightOfWay(rightOfWay, lot);
    List<Parcel> parcels = new ArrayList<>();
    Set<String> seen = new LinkedHashSet<>();
    Set<String> twice = new TreeSet<>();
    int lotIndex = -1;
    for (int i = 0; i < layer.features().size(); i++) {
      VectorFeature feature = layer.features().get(i);
      if (!seen.add(id(feature))) {
        twice.add(id(feature));
      }
      if (i == subject) {
        lotIndex = parcels.size();
        parcels.add(new Parcel(id(feature), lotOutline(feature)));
      } else {
        neighbour(feature, rightOfWay.contains(id(feature)), parcels);
      }
    }
    if (!twice.isEmpty()) {
      warnings.add(layer.name() + ": several parcels bear the same id: " + some(twice));
    }
    return new Found(parcels, lotIndex);
  }

  private String id(VectorFeature feature) {
    return idField == null ? feature.fid() : feature.attribute(idField).orElse("").strip();
  }

  /** Index of the lot's feature. */
  private int subject(String lot) {
    int[] matching =
        IntStream.range(0, layer.features().size())
            .filter(i -> id(layer.features().get(i)).equals(lot))
            .toArray();
    if (matching.length > 1) {
      throw new BadInputException(
          layer.name(),
          "lot " + lot + " is given by " + matching.length + " features",
          "give another id field, or keep one of them");
    }
    if (matching.length == 0) {
      throw new BadInputException(
          layer.name(), "there is no lot with the id '" + lot + "'", instead(lot));
    }
    return matching[0];
  }

  private void checkRightOfWay(Set<String> rightOfWay, String lot) {
    Set<String> ids = ids();
    for (String id : new TreeSet<>(rightOfWay)) {
      if (!ids.contains(id)) {
        throw new BadInputException(
            layer.name(),
            "right-of-way names a parcel '" + id + "' that is not there",
            Nearest.suggestion(id, ids, "there are " + some(ids)));
      }
      if (id.equals(lot)) {
        throw new BadInputException(
            layer.name(), "lot " + id + " is also named as right-of-way", "take it out of one");
      }
    }
  }

  private String instead(String lot) {
    for (String field : layer.fields()) {
      if (layer.features().stream().anyMatch(f -> f.attribute(field).orElse("").equals(lot))) {
        return "the field '" + field + "' holds it: give id: " + field;
      }
    }
    Set<String> ids = ids();
    return Nearest.suggestion(lot, ids, "there are " + some(ids));
  }

  private Set<String> ids() {
    Set<String> ids = new TreeSet<>();
    layer.features().forEach(f -> ids.add(id(f)));
    return ids;
  }

  private static String some(Set<String> ids) {
    String listed = String.join(", ", ids.stream().limit(LISTED).toList());
    return ids.size() > LISTED ? listed + ", …" : listed;
  }

  private Polygon lotOutline(VectorFeature feature) {
    String name = layer.name() + " lot " + id(feature);
    if (feature.geometry() == null) {
      throw new BadInputException(name, "the lot has no outline", "");
    }
    List<Polygon> parts = OutlineCheck.polygons(feature.geometry());
    if (parts.isEmpty()) {
      throw new BadInputException(
          name, "the lot's outline is no polygon", "give a layer of polygons");
    }
    if (parts.size() > 1) {
      throw new BadInputException(
          name,
          "the lot consists of " + parts.size() + " separate parts",
          "make each part a lot of its own and name one");
    }
    String fault = OutlineCheck.fault(parts.get(0));
    if (!fault.isEmpty()) {
      throw new BadInputException(
          name, "the lot's outline is not valid: " + fault, "mend the outline there");
    }
    return parts.get(0);
  }

  private void neighbour(VectorFeature feature, boolean rightOfWay, List<Parcel> parcels) {
    if (feature.geometry() == null) {
      warnings.add(layer.name() + " parcel " + id(feature) + ": it has no outline and is left out");
      return;
    }
    Geometry sound =
        OutlineCheck.mended(feature.geometry(), layer.name() + " parcel " + id(feature), warnings);
    for (Polygon part : OutlineCheck.polygons(sound)) {
      parcels.add(new Parcel(id(feature), part, rightOfWay));
    }
  }

  /** The id of the only feature of the layer, where there is but one. */
  static Optional<String> onlyId(VectorLayer layer, String idField) {
    return layer.features().size() == 1
        ? Optional.of(new ParcelFinder(layer, idField, List.of()).id(layer.features().get(0)))
        : Optional.empty();
  }
}
