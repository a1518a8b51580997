package org.yardfall.site;

import org.locationtech.jts.geom.Geometry;

/**
 * An area with one kind of cover.
 *
 * @param kind the cover
 * @param outline polygon or multipolygon in metres of the working plane
 */
public record Surface(Kind kind, Geometry outline) {

  /** Covers told apart by how much rain runs off them. */
  public enum Kind {
    ROOF,
    PAVEMENT,
    GRAVEL,
    LAWN,
    WOODS,
    BARE
  }
}
