/* Where the window's templates, styles and icons lie in the program, and what it is called on the
 * desktop. The resource itself is wb_get_resource() of the generated wb-resources.h, registered by
 * hand at startup: a static library would lose its constructor. */
#ifndef WB_RESOURCES_H
#define WB_RESOURCES_H

#define WB_APPLICATION_ID "org.wattberth.Wattberth"
#define WB_RESOURCE_PREFIX "/org/wattberth/Wattberth"

#endif
