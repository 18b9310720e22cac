package quality

// Terms of the tests that look at many.
var (
	locationTerms = []Term{
		dwcHigherGeographyID, dwcHigherGeography, dwcContinent, dwcCountry, dwcCountryCode, dwcStateProvince, dwcCounty, dwcMunicipality, dwcWaterBody, dwcIsland, dwcIslandGroup, dwcLocality, dwcLocationID, dwcVerbatimLocality, dwcDecimalLatitude, dwcDecimalLongitude, dwcVerbatimCoordinates, dwcVerbatimLatitude, dwcVerbatimLongitude, dwcFootprintWKT,
	}
	nameIDTerms = []Term{
		dwcTaxonID, dwcAcceptedNameUsageID, dwcOriginalNameUsageID, dwcTaxonConceptID, dwcScientificName, dwcHigherClassification, dwcKingdom, dwcPhylum, dwcClass, dwcOrder, dwcSuperfamily, dwcFamily, dwcSubfamily, dwcTribe, dwcSubtribe, dwcGenus, dwcGenericName, dwcSubgenus, dwcSpecificEpithet, dwcInfraspecificEpithet, dwcCultivarEpithet, dwcVernacularName, dwcScientificNameAuthorship, dwcTaxonRank,
	}
	unambiguousTerms = []Term{
		dwcTaxonID, dwcAcceptedNameUsageID, dwcOriginalNameUsageID, dwcTaxonConceptID, dwcHigherClassification, dwcKingdom, dwcPhylum, dwcClass, dwcOrder, dwcSuperfamily, dwcFamily, dwcSubfamily, dwcTribe, dwcSubtribe, dwcGenus, dwcGenericName, dwcSubgenus, dwcInfragenericEpithet, dwcSpecificEpithet, dwcInfraspecificEpithet, dwcCultivarEpithet, dwcVernacularName, dwcScientificNameAuthorship, dwcTaxonRank,
	}
	taxonTerms = []Term{
		dwcTaxonID, dwcScientificNameID, dwcAcceptedNameUsageID, dwcParentNameUsageID, dwcOriginalNameUsageID, dwcTaxonConceptID, dwcScientificName, dwcHigherClassification, dwcKingdom, dwcPhylum, dwcClass, dwcOrder, dwcSuperfamily, dwcFamily, dwcSubfamily, dwcTribe, dwcSubtribe, dwcGenus, dwcGenericName, dwcSubgenus, dwcInfragenericEpithet, dwcSpecificEpithet, dwcInfraspecificEpithet, dwcVernacularName, dwcCultivarEpithet,
	}
)
