/**
 * The ground as a grid of elevations in metres: rasters read by window, survey shots triangulated.
 *
 * <p>How a raster becomes ground. {@link org.yardfall.elevation.RasterFiles} tells a GeoTIFF from
 * an ASCII grid by its first bytes and reads its header: where the cells lie, in which CRS, how a
 * cell is stored, what marks an unknown one, in which unit elevations are. What cannot be
 * elevations is refused here. {@link org.yardfall.elevation.AlignedRasters} lays rasters of one
 * grid together, turns stored values into metres and unknown cells into NaN; {@link
 * org.yardfall.elevation.GroundLayer} knows where they lie on the working plane. Where the cells
 * are square and north-up in the working CRS they are handed on to the bit; else {@link
 * org.yardfall.elevation.Resampler} interpolates. {@link org.yardfall.elevation.Seams} watches for
 * steps between rasters, {@link org.yardfall.elevation.GroundSense} for numbers that are no ground.
 * {@link org.yardfall.elevation.ElevationSource} is the way in.
 */
package org.yardfall.elevation;
