package org.yardfall.site;

import java.util.List;
import java.util.Optional;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;

/**
 * A layer of a vector file as it stands there.
 *
 * @param name the file's name, with the layer's where the file has several
 * @param crs its CRS; empty where the file does not say
 * @param fields names of its attributes, in file order
 * @param features its features, in file order
 */
record VectorLayer(
    String name,
    Optional<CoordinateReferenceSystem> crs,
    List<String> fields,
    List<VectorFeature> features) {}
