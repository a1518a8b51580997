/**
 * What is on the ground and what is asked: the site file, parcels, buildings, obstacles, outlets,
 * limits. Everything is validated here and leaves as immutable records in SI units on the working
 * plane (metres), so that no later stage asks about units or files.
 */
package org.yardfall.site;
