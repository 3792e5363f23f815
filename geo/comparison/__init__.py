"""How do blocks, cultivars and sprays compare by what people counted?"""
