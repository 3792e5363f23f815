"""A layer of the model: what it needs, what it gives, and how."""

from collections.abc import Callable
from dataclasses import dataclass

import xarray as xr

from geo.errors import ContractError
from geo.season.contract import check
from geo.season.variable import Variable


@dataclass(frozen=True, slots=True)
class Layer:
    """
    One step from season to season.

    Attributes
    ----------
    name : str
        The room it comes from.
    question : str
        What it answers, as shown on the terminal while it runs.
    needs, gives : tuple of Variable
        What it reads and what it adds, and nothing else.
    compute : callable
        Season in, a data set with exactly the variables of ``gives`` out.
    """

    name: str
    question: str
    needs: tuple[Variable, ...]
    gives: tuple[Variable, ...]
    compute: Callable[[xr.Dataset], xr.Dataset]

    def add_to(self, season: xr.Dataset) -> xr.Dataset:
        """
        Return the season with this layer's variables added.

        Parameters
        ----------
        season : xarray.Dataset
            Left as it is.

        Returns
        -------
        xarray.Dataset
            A new season; each added variable says its unit, its meaning and this layer's name.

        Raises
        ------
        ContractError
            If a need is missing or a gift is not as promised.
        """
        check(season, self.needs, of=f"layer {self.name} needs", with_values=False)
        given = self.compute(season)
        promised = {variable.name for variable in self.gives}
        if set(given.data_vars) != promised:
            difference = sorted(set(map(str, given.data_vars)) ^ promised)
            message = f"layer {self.name}: promised and given differ in {difference}"
            raise ContractError(message)
        check(given, self.gives, of=f"layer {self.name} gives")
        for variable in self.gives:
            given[variable.name].attrs.update(
                units=variable.unit, long_name=variable.meaning, made_by=self.name
            )
        return season.assign(dict(given.data_vars)).assign_coords(given.coords)
