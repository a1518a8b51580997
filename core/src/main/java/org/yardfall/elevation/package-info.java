/** The ground as a grid of elevations: rasters read by window, survey shots triangulated. */
package org.yardfall.elevation;
