/**
 * Surface water: the filled surface, where each cell's water goes, how much passes, where it stands
 * and where it spills.
 */
package org.yardfall.water;
