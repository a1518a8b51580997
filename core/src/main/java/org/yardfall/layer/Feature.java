package org.yardfall.layer;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.locationtech.jts.geom.Geometry;

/**
 * A feature of a map layer.
 *
 * @param geometry its shape in metres of the working plane
 * @param values its values in the order of the layer's fields, null where there is none
 */
public record Feature(Geometry geometry, List<Object> values) {

  /** Keeps the list to itself. */
  public Feature {
    values = Collections.unmodifiableList(new ArrayList<>(values));
  }
}
