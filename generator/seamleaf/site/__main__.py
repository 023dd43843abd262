"""``python -m seamleaf.site`` runs the command line, where no command is installed."""

import sys

from seamleaf.site.command import main

sys.exit(main())
