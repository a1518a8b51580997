/** The trench's section, its stone and fabric, and what a metre of it costs; knows no route. */
package org.yardfall.trench;
