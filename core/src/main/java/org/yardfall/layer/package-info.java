/**
 * Results as map layers and tables in open formats.
 *
 * <p>{@link org.yardfall.layer.Result} is everything found out. {@code LayerSet} defines each map
 * layer once, with its fields and features on the working plane; the writers only know a format.
 * {@code ResultFolder} puts all files in place together or not at all.
 */
package org.yardfall.layer;
