package org.yardfall.site;

import java.nio.file.Path;
import java.util.List;

/**
 * The files that a site was read from, as named by the user; each may be null.
 *
 * @param crs the working CRS as named by the user
 * @param ortho an orthophoto to draw the result on
 * @param parcels parcel outlines
 * @param lot the subject lot's id as named by the user
 * @param rightOfWay ids of the parcels that are public right-of-way, as named by the user
 * @param buildings building footprints
 * @param obstacles what a trench must mind
 * @param crossings slabs to pass under
 * @param outlets outlets, where they come from a file
 * @param surfaces covers
 * @param openings culverts and curb cuts
 * @param pinned drains that the user drew
 * @param seeps places where water comes out of the ground
 * @param levelled swales that are to be levelled
 * @param downspouts where roofs let their water out
 */
public record SiteInputs(
    String crs,
    Path ortho,
    LayerSource parcels,
    String lot,
    List<String> rightOfWay,
    LayerSource buildings,
    LayerSource obstacles,
    LayerSource crossings,
    LayerSource outlets,
    LayerSource surfaces,
    LayerSource openings,
    LayerSource pinned,
    LayerSource seeps,
    LayerSource levelled,
    LayerSource downspouts) {

  /** No files: the site was made in memory. */
  public static final SiteInputs NONE =
      new SiteInputs(
          null, null, null, null, List.of(), null, null, null, null, null, null, null, null, null,
          null);

  /** The same files, another lot. */
  SiteInputs withLot(String id) {
    return with(id, pinned);
  }

  /** The same files, other drains drawn. */
  SiteInputs withPinned(LayerSource lines) {
    return with(lot, lines);
  }

  private SiteInputs with(String lotId, LayerSource drawn) {
    return new SiteInputs(
        crs,
        ortho,
        parcels,
        lotId,
        rightOfWay,
        buildings,
        obstacles,
        crossings,
        outlets,
        surfaces,
        openings,
        drawn,
        seeps,
        levelled,
        downspouts);
  }
}
