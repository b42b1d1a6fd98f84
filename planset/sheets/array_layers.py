"""On which layers arrays are drawn: modules as strong as a sheet needs, rails, attachments."""

MODULES = "E-SOLR-PANL"
MODULES_LIGHT = "E-SOLR-PANL-REFR"  # under circuits, or under the wind zones
MODULES_FAINT = "S-ROOF-PANL"  # under rails and attachments
RAILS = "E-SOLR-RAIL"
ATTACHMENTS = "S-ROOF-ANCH"
