"""Weather of a field: days at stations, heat units, sun and shadow, heat on the scout."""

from quarterwalk.weather.ahead import SeasonHeat, season_heat
from quarterwalk.weather.choose import FieldWeather, weather_for
from quarterwalk.weather.daily import DailyWeather, DayMark, WeatherError
from quarterwalk.weather.fill import fill_gaps
from quarterwalk.weather.heat_units import HEAT_METHODS, CutOff, HeatMethod
from quarterwalk.weather.station import Place, Station, by_distance

__all__ = [
    "HEAT_METHODS",
    "CutOff",
    "DailyWeather",
    "DayMark",
    "FieldWeather",
    "HeatMethod",
    "Place",
    "SeasonHeat",
    "Station",
    "WeatherError",
    "by_distance",
    "fill_gaps",
    "season_heat",
    "weather_for",
]
