Route #1: 2 1 3 4
